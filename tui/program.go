package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"sync/atomic"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/walk"
	_ "example.org/kettledrum/tui/background" // before bubbletea: see there
	"example.org/kettledrum/tui/theme"
)

// Conductor is the run that the screen shows. session.Session is one.
type Conductor interface {
	State() *run.State
	Record(...run.Event) (*run.State, error)
	Tick() (*run.State, error)
}

// Remedies finds ways out of what is late. session.Session is one.
type Remedies interface {
	NeedsRemedy() bool
	Remedies(context.Context) []remedy.Remedy
	Take(remedy.Remedy) (*run.State, error)
}

// Rehearsal is the clock of a rehearsal. clock.Fast is one.
type Rehearsal interface {
	Speed() float64
	SetSpeed(float64)
	Pause()
	Resume()
	Paused() bool
	HoldAt(time.Time)
	Jump(time.Time) time.Time
}

// Options are what a screen is made of.
type Options struct {
	Conductor Conductor
	// Remedies is nil where no ways out are looked for.
	Remedies Remedies
	// Watch is set where another program conducts the run: it returns the state as
	// it is in that one's journal, or nil where nothing is new.
	Watch func() (*run.State, error)
	// Hint is called beside the screen at the start; what it returns is told there.
	Hint func() string
	// AskFar asks in the first minute whether the screen can be read from afar.
	AskFar bool
	// Clock is that of the session; in a rehearsal the same one as Rehearsal.
	Clock clock.Clock
	// Rehearsal is nil on the cook-day.
	Rehearsal Rehearsal
	// Through lets its clock begin by running through. News say what befell it since
	// the last call. Debrief looks back at it once all is served; Improve does so with what
	// to change, which takes as long as playing it several times, and is nil where that
	// is not known. Each may be nil.
	Through bool
	News    func() []string
	Debrief func() []debrief.Section
	Improve func(context.Context) []debrief.Section
	// Walk are the stops of a walk-through: then nothing of a clock is shown.
	Walk []walk.Stop
	// Ring sounds once for a cue of the class, so many steps louder than the first
	// time; nil for silence. It may block.
	Ring func(class run.Class, louder int)
	// Sound is how cues are heard at the start; SetVolume is told of a change, in
	// percent; Soundless says whether the last ring came out of no loudspeaker.
	// The functions return at once and may be nil.
	Sound     Sound
	SetVolume func(percent int)
	Soundless func() bool
	// In and Out are the terminal; nil for standard input and output. What
	// rings the terminal's bell must write to the same Output.
	In  io.Reader
	Out io.Writer
	// Theme is the look; nil for what the environment asks for.
	Theme *theme.Theme
	// ASCII keeps to ASCII where Theme is nil, whatever the locale.
	ASCII bool
	// Light is a light ground, where Theme is nil and the environment tells of none.
	Light bool
	// ResumeHint is the command that goes on with the run, for the question
	// before quitting.
	ResumeHint string
	// Real is the real clock; nil for the system's.
	Real clock.Clock
}

// Result is how a screen ended.
type Result struct {
	State *run.State
	// Missing is what a walk-through did not find.
	Missing []walk.Missing
}

// Heartbeats.
const (
	// heartbeat is aligned to the whole second: timers show seconds.
	heartbeat = time.Second
	// fastHeartbeat is that of a rehearsal, whose minutes pass in a blink.
	fastHeartbeat = 100 * time.Millisecond
)

// Run shows the run until the cook quits, ctx ends or the terminal goes away.
// Whatever ends it, the terminal is restored and Result holds the last state
// that the screen had.
//
// Errors: of the terminal, or a panic inside, with its stack. That ctx ended or
// the terminal went away is no error: the journal has everything.
func Run(ctx context.Context, o Options) (Result, error) {
	o = o.withDefaults()
	s := &shell{opt: o, m: NewModel(Setup{
		State: o.Conductor.State(), Theme: o.Theme, Rehearsal: o.Rehearsal != nil, Resume: o.ResumeHint,
		Following: o.Watch != nil, AskFar: o.AskFar, Sound: o.Sound, Through: o.Through, Walk: o.Walk,
	})}
	s.beside, s.lookingBack = context.WithCancel(ctx)
	p := tea.NewProgram(s, tea.WithInput(o.In), tea.WithOutput(o.Out), tea.WithoutRenderer(),
		tea.WithFilter(s.stamp), tea.WithoutSignalHandler())

	s.quit = p.Quit
	ctx, stop := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	unwatch := context.AfterFunc(ctx, p.Quit)
	defer unwatch()

	d, err := openDisplay(o.In, o.Out)
	if err != nil {
		return Result{State: o.Conductor.State()}, err
	}
	s.display = d
	if w, h, ok := d.size(); ok {
		s.m, _ = Update(s.m, SizeMsg{w, h})
	}
	go resized(ctx, func(back bool) {
		d.lost.Store(true)
		if back {
			d.taken.Store(true)
		}
		if w, h, ok := d.size(); ok {
			p.Send(tea.WindowSizeMsg{Width: w, Height: h})
		}
	})
	_, err = p.Run()
	d.close()
	if s.seeking != nil {
		s.seeking.stop()
	}
	s.lookingBack()
	asked := s.m.writing != nil // the screen ended before the answer came
	if s.last != nil {
		<-s.last
	}
	if why := s.unwritten.Load(); asked && why != nil && err == nil {
		err = *why
	}
	if s.failed != nil {
		err = s.failed
	}
	if o.Rehearsal != nil {
		o.Rehearsal.HoldAt(time.Time{})
	}
	return Result{State: o.Conductor.State(), Missing: s.m.walk.ticks.Missing(o.Walk)}, err
}

func (o Options) withDefaults() Options {
	if o.In == nil {
		o.In = os.Stdin
	}
	if o.Out == nil {
		o.Out = NewOutput(os.Stdout)
	}
	if o.Real == nil {
		o.Real = clock.System{}
	}
	if o.Ring == nil {
		o.Ring = func(run.Class, int) {}
	}
	if o.SetVolume == nil {
		o.SetVolume = func(int) {}
	}
	if o.Soundless == nil {
		o.Soundless = func() bool { return false }
	}
	if o.News == nil {
		o.News = func() []string { return nil }
	}
	if o.Theme == nil {
		o.Theme = theme.FromEnvironment(os.Getenv, o.ASCII, o.Light, Profile(o.Out))
	}
	return o
}

// Profile returns how many colours a terminal shows, by its environment; anything else
// shows none. The library knows a terminal only where it is given the bare file.
func Profile(out io.Writer) termenv.Profile {
	_, terminal := terminalOf(out)
	return termenv.NewOutput(out, termenv.WithTTY(terminal)).EnvColorProfile()
}

// shell is the terminal library's model around ours: it turns its messages into
// ours and our effects into its commands, and does nothing else.
type shell struct {
	opt    Options
	m      Model
	failed error
	// last is closed when the last thing entered is recorded; unwritten is why
	// one of them was not.
	last      chan struct{}
	unwritten atomic.Pointer[error]
	quit      func()
	display   *display
	seeking   *seeking // ways out
	// beside ends what is worked out beside the screen when lookingBack is called.
	beside      context.Context
	lookingBack context.CancelFunc
}

type failedMsg struct{ err error }

// Init starts the heartbeat; the first comes at once.
func (s *shell) Init() tea.Cmd {
	return tea.Batch(guard(func() tea.Msg { return s.beat() }), s.watch(), s.hint())
}

func (s *shell) instants() Instants { return Instants{At: s.opt.Clock.Now(), Real: s.opt.Real.Now()} }

func (s *shell) beat() BeatMsg {
	b := BeatMsg{Instants: s.instants(), Speed: 1, Soundless: s.opt.Soundless()}
	if r := s.opt.Rehearsal; r != nil {
		b.Speed, b.Paused, b.News = r.Speed(), r.Paused(), s.opt.News()
	}
	return b
}

func (s *shell) nextBeat() tea.Cmd {
	every := heartbeat
	if s.opt.Rehearsal != nil {
		every = fastHeartbeat
	}
	beat := guard(func() tea.Msg { return s.beat() })
	return tea.Every(every, func(time.Time) tea.Msg { return beat() })
}

// stamp gives keys the instants at which they were pressed.
func (s *shell) stamp(_ tea.Model, msg tea.Msg) tea.Msg {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return msg
	}
	out := KeyMsg{Instants: s.instants(), Key: k.String(), Paste: k.Paste}
	switch {
	case k.Alt:
	case k.Type == tea.KeyRunes:
		out.Text = string(k.Runes)
	case k.Type == tea.KeySpace:
		out.Key, out.Text = "space", " "
	}
	if out.Key == " " {
		out.Key = "space"
	}
	return out
}

// Update implements tea.Model. A panic ends the screen in good order.
func (s *shell) Update(msg tea.Msg) (_ tea.Model, cmd tea.Cmd) {
	defer func() {
		if r := recover(); r != nil {
			s.failed, cmd = panicked(r), tea.Quit
		}
	}()
	return s.update(msg)
}

func (s *shell) update(msg tea.Msg) (tea.Model, tea.Cmd) {
	var cmds []tea.Cmd
	switch t := msg.(type) {
	case failedMsg:
		s.failed = t.err
		return s, tea.Quit
	case tea.WindowSizeMsg:
		msg = SizeMsg{t.Width, t.Height}
	case tea.FocusMsg:
		msg = FocusMsg{Front: true}
	case tea.BlurMsg:
		msg = FocusMsg{}
	case watchMsg:
		cmds = append(cmds, s.watch())
		if msg = t.news; t.news == nil {
			return s, tea.Batch(cmds...)
		}
	case BeatMsg:
		cmds = append(cmds, s.nextBeat())
	}
	ours, ok := msg.(Msg)
	if !ok {
		return s, nil
	}
	var effects []Effect
	s.m, effects = Update(s.m, ours)
	for _, e := range effects {
		cmds = append(cmds, s.do(e))
	}
	return s, tea.Batch(cmds...)
}

// View implements tea.Model: it shows the frame itself, and the library, which is
// asked to draw nothing, gets none. A panic ends the screen in good order.
func (s *shell) View() string {
	defer func() {
		if r := recover(); r != nil && s.failed == nil {
			s.failed = panicked(r)
			go s.quit() // it waits for the loop that this is called from
		}
	}()
	if s.failed == nil && s.m.beaten { // before, it has no time of day
		s.display.show(View(s.m))
	}
	return ""
}

// do turns an effect into a command. What only sets a rehearsal's clock is done
// at once, so that it stays in order.
func (s *shell) do(e Effect) tea.Cmd {
	r := s.opt.Rehearsal
	switch e := e.(type) {
	case Record:
		return s.write(e)
	case Tick:
		return guard(func() tea.Msg {
			state, err := s.opt.Conductor.Tick()
			return TickedMsg{Instants: s.instants(), State: state, Err: err}
		})
	case SetVolume:
		s.opt.SetVolume(e.Percent)
	case Ring:
		return guard(func() tea.Msg { s.opt.Ring(e.Class, e.Louder); return nil })
	case Notify:
		return guard(func() tea.Msg { s.notify(e.Text); return nil })
	case Title:
		s.display.title(e.Text)
	case SeekRemedies:
		return s.seek()
	case SeekDebrief:
		return guard(func() tea.Msg { return s.opt.lookBack(s.beside, e) })
	case TakeRemedy:
		return s.writeBy(e.Said, func() (*run.State, error) { return s.opt.Remedies.Take(e.Remedy) })
	case Quit:
		return tea.Quit
	default:
		turn(r, e)
	}
	return nil
}

// guard turns a panic in a command into an error: the library would print its
// trace behind the screen, where nobody sees it.
func guard(f func() tea.Msg) tea.Cmd {
	return func() (msg tea.Msg) {
		defer func() {
			if r := recover(); r != nil {
				msg = failedMsg{panicked(r)}
			}
		}()
		return f()
	}
}

// panicked is the error for a panic, with its stack.
func panicked(r any) error { return fmt.Errorf("%w: %v\n%s", ErrPanic, r, debug.Stack()) }

// ErrPanic is wrapped by the error for a panic beside the screen.
var ErrPanic = errors.New("a bug: something panicked beside the screen")
