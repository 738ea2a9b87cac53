package tui

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/walk"
	"example.org/kettledrum/sounds/ring"
	"example.org/kettledrum/tui/theme"
)

// Intervals of the screen, all of real time.
const (
	// ShownFor is how long a cue must have been on the screen before space
	// answers it: nobody answers what they cannot have read.
	ShownFor = time.Second
	// Repeat is the time within which the same key again is the keyboard's
	// repetition, or a wet finger.
	Repeat = 400 * time.Millisecond
	// WritingShown is how long writing may take before the screen says so.
	WritingShown = time.Second
	// MessageStays is how long a message stays that is no error.
	MessageStays = 12 * time.Second
	// Gap between two heartbeats after which the cook counts as having been away.
	Gap = time.Minute
	// AwayAfter is how long no key was pressed when the cook counts as away.
	AwayAfter = 5 * time.Minute
	// MoreMinutes is what one press of the key for more time gives.
	MoreMinutes = 5 * time.Minute
	// MovedStays is how long what moved stays on the screen, of session time.
	MovedStays = 30 * time.Minute
)

// note is what the message line says.
type note struct {
	text  string
	err   bool // stays until a key is pressed
	since time.Time
}

// writing is a Record that is under way.
type writing struct {
	since time.Time // real
	said  string
}

// question is what the confirm mode asks.
type question struct {
	text, hint string
	yes        string // what yes does, in a word or two
	effect     Effect
}

// promptFor says what is being typed.
type promptFor int

const (
	forTimer promptFor = iota
	forMinutes
	forWhen
	forStart // when a step began
	forEnd   // when it was done
	forSpan  // for how long; nothing typed: without end
	forHeat  // a temperature inside
	forNote
)

// prompt is a line being typed and what for.
type prompt struct {
	what   promptFor
	title  string
	hint   string
	line   editor
	target run.Going // of forMinutes
	step   int       // of forStart, forEnd and forHeat; of forNote, -1 for the dinner
	event  run.Event // of forSpan
	unconf run.Unconfirmed
}

// Model is everything the screen knows. It is a value: Update returns another.
type Model struct {
	th         painter
	rehearsing bool
	resume     string
	following  bool
	plain      bool
	askFar     bool
	started    time.Time // of the first heartbeat, real
	zone       *time.Location

	state     *run.State
	moment    run.Moment
	now, real time.Time
	beaten    bool // a first heartbeat has come

	width, height int
	clockCells    int // how wide the times of the panes are
	mode          Mode
	under         []Mode // what Esc leads back to, the last first
	message       note
	confirm       question
	prompt        prompt
	helpTop       int // first line shown of the help, or of the log from its end
	farSize       int // of the digits, 0 to 2
	lanes         lanes
	opened        int // the step that is opened, -1 for none
	dayTop        int
	find          finder
	choices       choices
	debrief       lookedBack
	walk          walking

	selected string // row id, or "step:…"; empty: nothing selected by the cook
	unmark   bool   // Esc again takes the mark off
	listAt   int    // selected row of the list
	listSeen string // what the list held when it was closed

	shown     string    // what the space bar would do …
	shownAt   time.Time // … and since when that is on the screen, real
	lastSpace time.Time // real
	lastKey   time.Time // real

	bell  ring.State
	sound Sound
	// hearing: it is asked whether the sound is heard; soundless: it cannot be.
	hearing, soundless bool
	behind             bool   // the terminal is not in front
	window             string // its title, as it was last set

	remedies []remedy.Remedy // ways out of what is late …
	// … after so many events: with more of them they are of another dinner. seeking:
	// they are being worked out.
	remediesOf int
	seeking    bool

	writing  *writing
	queue    []KeyMsg // keys that wait until it is written
	refused  bool     // further ones were refused
	ticking  bool
	lastTick time.Time // session minute of the last Tick

	// Of a rehearsal.
	speed  float64
	paused bool
	hold   bool      // hold the clock at each cue
	heldAt time.Time // the last HoldAt that was sent
	// endedAt is when it ended by itself, zero while it did not: there the clock stands.
	endedAt time.Time
}

// Setup is what a Model starts from.
type Setup struct {
	State     *run.State
	Theme     *theme.Theme
	Rehearsal bool
	// Resume tells how the run is gone on with after quitting.
	Resume string
	// Following: another program conducts the run, this screen only shows it.
	Following bool
	// Plain: the run is shown in lines. Keys are typed with care, and the list on
	// return is only offered.
	Plain bool
	// Through: a rehearsal's clock begins by running through, and waits at no cue.
	Through bool
	// Walk are the stops of a walk-through, instead of a rehearsal on a clock.
	Walk []walk.Stop
	// AskFar asks in the first minute whether the screen can be read from afar.
	AskFar bool
	// Sound is how cues are heard.
	Sound Sound
}

// NewModel returns the screen of a run before its first heartbeat. Until a
// SizeMsg comes it is 80×24.
func NewModel(s Setup) Model {
	mode := Main
	if len(s.Walk) > 0 {
		mode = Walk
	}
	return Model{
		mode: mode, walk: walking{stops: s.Walk},
		th: painter{s.Theme}, rehearsing: s.Rehearsal, hold: s.Rehearsal && !s.Through, resume: s.Resume, state: s.State,
		zone: s.State.Plan.Table.Location(), width: 80, height: 24, clockCells: clockCells,
		following: s.Following, plain: s.Plain, askFar: s.AskFar, sound: s.Sound,
		heldAt: time.Unix(0, 0), // nothing was sent: the first is, whatever it is
		opened: -1, lanes: lanes{step: -1},
	}
}

// State returns the last state that the screen was given.
func (m Model) State() *run.State { return m.state }

// Mode returns what the keys mean at the moment.
func (m Model) Mode() Mode { return m.mode }

func (m *Model) tell(text string) { m.message = note{text: text, since: m.real} }

// row is something that can be selected: a cue or something going.
type row struct {
	id    string
	cue   *run.Cue
	going *run.Going
	step  int // where it is neither
}

// rows are all rows that can be selected, in the order of the screen.
func (m *Model) rows() []row {
	rows := make([]row, 0, len(m.moment.Cues)+len(m.moment.Going))
	for i := range m.moment.Cues {
		rows = append(rows, row{id: m.moment.Cues[i].ID, cue: &m.moment.Cues[i]})
	}
	for i := range m.moment.Going {
		rows = append(rows, row{id: m.goingID(&m.moment.Going[i]), going: &m.moment.Going[i]})
	}
	return rows
}

// chosen returns the row that is marked and that the keys for the selected one
// act on: the one the cook selected, else what goes on of the most urgent cue,
// else what ends first, else the most urgent cue.
func (m *Model) chosen() (row, bool) {
	if m.mode == Lanes || m.mode == StepView {
		i, ok := m.theStep()
		if !ok {
			return row{step: -1}, false
		}
		return m.stepRow(i), true
	}
	if m.mode == Far {
		return m.farRow()
	}
	rows := m.rows()
	for _, r := range rows {
		if r.id == m.selected {
			return r, true
		}
	}
	if i := m.markedStep(); i >= 0 {
		return m.stepRow(i), true
	}
	var g *run.Going
	if len(m.moment.Cues) > 0 {
		g = m.goingOf(&m.moment.Cues[0])
	}
	if g == nil {
		g = m.endsFirst()
	}
	switch {
	case g != nil:
		return row{id: m.goingID(g), going: g}, true
	case len(rows) > 0:
		return rows[0], true
	}
	return row{}, false
}

// goingTarget is the going step or timer that more time is given to: the chosen
// row, or what goes on of the chosen cue.
func (m *Model) goingTarget() (run.Going, bool) {
	r, ok := m.chosen()
	switch {
	case !ok || r.going != nil:
	case r.cue != nil:
		r.going = m.goingOf(r.cue)
	case m.state.Steps[r.step].Status == plan.Ahead: // said beforehand
		return run.Going{Step: r.step, Label: run.StepName(m.state.Plan, r.step), End: m.moment.Projection.End[r.step]}, true
	}
	if r.going == nil {
		return run.Going{}, false
	}
	return *r.going, true
}

// goingOf returns the going step or timer that a cue is about, or nil.
func (m *Model) goingOf(c *run.Cue) *run.Going {
	for i := range m.moment.Going {
		if g := &m.moment.Going[i]; g.Step >= 0 && g.Step == c.Step || g.Step < 0 && timerCue(g.Timer) == c.ID {
			return g
		}
	}
	return nil
}

func (m *Model) endsFirst() *run.Going {
	var first *run.Going
	for i := range m.moment.Going {
		if g := &m.moment.Going[i]; first == nil || g.End.Before(first.End) {
			first = g
		}
	}
	return first
}

// Size returns the size of the screen in cells.
func (m Model) Size() (width, height int) { return m.width, m.height }
