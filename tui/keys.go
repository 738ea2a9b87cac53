package tui

import (
	"slices"
	"strings"
)

// Action is something the cook can do.
type Action string

// Actions.
const (
	Answer        Action = "answer"
	Finish        Action = "finish"
	More          Action = "more"
	MoreBy        Action = "more-by"
	Skip          Action = "skip"
	Undo          Action = "undo"
	NewTimer      Action = "timer"
	WriteNote     Action = "note"
	SelectUp      Action = "up"
	SelectDown    Action = "down"
	ShowList      Action = "list"
	AllPlanned    Action = "all-planned"
	AsPlanned     Action = "as-planned"
	JustNow       Action = "just-now"
	WhenAt        Action = "when"
	Yes           Action = "yes"
	Accept        Action = "accept"
	Back          Action = "back"
	ShowHelp      Action = "help"
	Leave         Action = "quit"
	PauseClock    Action = "pause"
	Faster        Action = "faster"
	Slower        Action = "slower"
	NextCue       Action = "next-cue"
	HoldCues      Action = "hold"
	ShowFar       Action = "far"
	Larger        Action = "larger"
	ShowLanes     Action = "lanes"
	ShowDays      Action = "days"
	ShowLog       Action = "log"
	ShowFind      Action = "find"
	OpenStep      Action = "open"
	Correct       Action = "correct"
	Earlier       Action = "earlier"
	Later         Action = "later"
	HoursBack     Action = "hours-back"
	HoursOn       Action = "hours-on"
	HoursNow      Action = "hours-now"
	ZoomIn        Action = "zoom-in"
	ZoomOut       Action = "zoom-out"
	Wrong         Action = "wrong"
	WaysOut       Action = "ways-out"
	Choose        Action = "choose"
	ChooseNth     Action = "choose-nth"
	Measure       Action = "measure"
	Silence       Action = "silence"
	Louder        Action = "louder"
	ShowHowItWent Action = "debrief"
	TickThing     Action = "tick-thing"
	Untick        Action = "untick"
	TickAll       Action = "tick-all"
	WalkOn        Action = "walk-on"
	WalkBack      Action = "walk-back"
	ShowMissing   Action = "missing"
	ReadOn        Action = "read-on"
	EndWalk       Action = "end-walk"
)

// Binding is one row of the table of keys. The help line, the help screen and
// the table in the README are made from it.
type Binding struct {
	Action Action
	Keys   []string
	Short  string // one or two words for the help line
	Full   string // one sentence for the help screen
	Modes  []Mode
	// Rehearsal: the key is for rehearsals only.
	Rehearsal bool
	// Off says why the key does nothing right now; empty: it does.
	Off func(*Model) string
	// Label replaces Short where what the key does depends on the moment.
	Label func(*Model) string
	// Line is the place in the help line, from 1; zero: not in it.
	Line int
}

// listed are the modes in which there are rows to move among.
var listed = []Mode{Main, List, Help, Lanes, Days, Log, Finding, Choices, Debrief, Walk, WalkEnd}

// bindings is the one table of keys.
var bindings = []Binding{
	{Action: Answer, Keys: []string{"space"}, Short: "done", Modes: views, Line: 1, Label: answerLabel, Off: offAnswer,
		Full: "Does the obvious thing: answers the most urgent cue, as its label says."},
	{Action: Yes, Keys: []string{"y", "enter"}, Short: "yes", Modes: []Mode{Confirm}, Line: 1, Label: yesLabel,
		Full: "Says yes to the question."},
	{Action: Accept, Keys: []string{"enter"}, Short: "accept", Modes: []Mode{Prompt, Finding}, Line: 1,
		Full: "Takes what was typed, or opens the step that was found."},
	{Action: AllPlanned, Keys: []string{"a"}, Short: "all as planned", Modes: []Mode{Main, List}, Line: 2, Off: offList,
		Full: "Everything that nobody answered (l lists it) went as planned."},
	{Action: AsPlanned, Keys: []string{"enter", "space"}, Short: "as planned", Modes: []Mode{List}, Line: 3, Off: offList,
		Full: "On that list: the marked thing went as planned."},
	{Action: JustNow, Keys: []string{"n"}, Short: "not yet: now", Modes: []Mode{List}, Line: 4, Off: offList,
		Full: "On that list: the marked thing had not happened yet; it starts now, or goes on for five minutes more."},
	{Action: WhenAt, Keys: []string{"w"}, Short: "when", Modes: []Mode{List}, Line: 5, Off: offList,
		Full: "On that list: asks when the marked thing happened."},
	{Action: More, Keys: []string{"+", "=", "m"}, Short: "5 min more", Modes: []Mode{Main, Far, Lanes, StepView}, Line: 3, Off: offMore,
		Full: "Gives the marked step five minutes more; again, another five."},
	{Action: MoreBy, Keys: []string{"e"}, Short: "more by", Modes: []Mode{Main, Lanes, StepView}, Off: offMore,
		Full: "Asks how many minutes more the marked step takes."},
	{Action: Finish, Keys: []string{"d"}, Short: "marked done", Modes: []Mode{Main, Lanes, StepView}, Line: 7, Off: offSelected,
		Full: "The marked cue or step is done."},
	{Action: Skip, Keys: []string{"x"}, Short: "skip", Modes: []Mode{Main, Lanes, StepView}, Off: offSelected,
		Full: "Leaves the marked step out, after asking."},
	{Action: Undo, Keys: []string{"u"}, Short: "undo", Modes: append([]Mode{List}, views...), Line: 6, Off: offUndo,
		Full: "Takes back the last thing you told, and says which."},
	{Action: NewTimer, Keys: []string{"t"}, Short: "timer", Modes: views, Line: 8, Off: offWriting,
		Full: "Sets a quick timer: a label and the minutes, such as tea 4."},
	{Action: WriteNote, Keys: []string{"N"}, Short: "note", Modes: views, Line: 22, Off: offWriting,
		Full: "Writes down what to remember, of the marked step or of the dinner; the review brings it back."},
	{Action: SelectUp, Keys: []string{"up", "k", "shift+tab"}, Short: "up", Modes: listed, Off: offRows,
		Full: "Marks the row above."},
	{Action: SelectDown, Keys: []string{"down", "j", "tab"}, Short: "move mark", Modes: listed, Line: 9, Off: offRows, Label: moveLabel,
		Full: "Marks the row below."},
	{Action: ShowList, Keys: []string{"l"}, Short: "list", Modes: views, Off: offList,
		Full: "Lists what nobody answered, to say of each: done, not yet, or when."},
	{Action: Choose, Keys: []string{"enter"}, Short: "take it", Modes: []Mode{Choices}, Line: 1, Off: offWriting,
		Full: "Takes the marked one of several."},
	{Action: ChooseNth, Keys: choiceKeys, Short: "take", Modes: []Mode{Choices}, Off: offWriting,
		Full: "Takes the one with that number, or letter after the tenth."},
	{Action: WaysOut, Keys: []string{"r"}, Short: "ways out", Modes: views, Line: 5, Off: offRemedies,
		Full: "Shows what to give up when a course will be late, and what each way out buys."},
	{Action: Wrong, Keys: []string{"w"}, Short: "went wrong", Modes: views, Line: 20, Off: offWriting,
		Full: "Tells what went wrong: guests are late and a course must wait, a cook is away, an oven or burner failed, a step begins again."},
	{Action: Measure, Keys: []string{"i"}, Short: "inside", Modes: []Mode{Main, Far, Lanes, StepView}, Line: 14, Off: offMeasure,
		Full: "Asks what the thermometer shows inside the marked step's food."},
	{Action: Silence, Keys: []string{"s"}, Short: "silence", Modes: views, Line: 21, Label: silenceLabel, Off: offSound,
		Full: "Keeps the sounds quiet for five minutes, or lets them ring again."},
	{Action: Louder, Keys: []string{"b"}, Short: "louder", Modes: views, Off: offSound,
		Full: "Plays the sound for what is to be looked at, a little louder each time, up to full volume."},
	{Action: ShowFar, Keys: []string{"f"}, Short: "far", Modes: []Mode{Main, Lanes, StepView, Days}, Line: 15,
		Full: "Shows one thing and its countdown, to be read from across the kitchen."},
	{Action: Larger, Keys: []string{"f"}, Short: "larger", Modes: []Mode{Far}, Line: 2, Label: largerLabel,
		Full: "In the far view: larger digits, and from the largest back to the smallest."},
	{Action: ShowLanes, Keys: []string{"v"}, Short: "hours", Modes: []Mode{Main, Far, StepView, Days}, Line: 16,
		Full: "Shows the hours from left to right: ovens, burners, each cook, each dish."},
	{Action: Later, Keys: []string{"right"}, Short: "step", Modes: []Mode{Lanes}, Off: offStep, Line: 10,
		Full: "Among the hours: selects the next step of the lane."},
	{Action: Earlier, Keys: []string{"left"}, Short: "step before", Modes: []Mode{Lanes}, Off: offStep,
		Full: "Among the hours: selects the step before it in the lane."},
	{Action: HoursOn, Keys: []string{"]"}, Short: "later", Modes: []Mode{Lanes}, Line: 12,
		Full: "Shows later hours."},
	{Action: HoursBack, Keys: []string{"["}, Short: "earlier", Modes: []Mode{Lanes}, Line: 12,
		Full: "Shows earlier hours."},
	{Action: HoursNow, Keys: []string{".", "home"}, Short: "now", Modes: []Mode{Lanes}, Line: 12,
		Full: "Goes back to the hours around now."},
	{Action: ZoomIn, Keys: []string{"z"}, Short: "zoom", Modes: []Mode{Lanes}, Line: 11,
		Full: "Shows fewer hours, larger."},
	{Action: ZoomOut, Keys: []string{"Z"}, Short: "zoom out", Modes: []Mode{Lanes},
		Full: "Shows more hours, smaller."},
	{Action: OpenStep, Keys: []string{"o", "enter"}, Short: "open", Modes: []Mode{Main, Lanes}, Off: offOpen, Line: 9,
		Full: "Opens the marked step: its note, its reminders, what it waits for and what waits for it."},
	{Action: Correct, Keys: []string{"c"}, Short: "correct time", Modes: []Mode{Lanes, StepView}, Off: offCorrect, Line: 8,
		Full: "Asks when the step really began, or was done."},
	{Action: ShowDays, Keys: []string{"y"}, Short: "days", Modes: []Mode{Main, Far, Lanes, StepView}, Line: 17,
		Full: "Shows what is made on which day."},
	{Action: ShowFind, Keys: []string{"/"}, Short: "find", Modes: views, Line: 18,
		Full: "Finds a step by its name."},
	{Action: ShowLog, Keys: []string{"g"}, Short: "log", Modes: views, Line: 19,
		Full: "Shows what was told so far, and every rule that will not be kept as things go."},
	{Action: NextCue, Keys: []string{"n"}, Short: "next cue", Modes: []Mode{Main, Far, Lanes}, Rehearsal: true, Line: 4, Off: offNext,
		Full: "Jumps to the next cue."},
	{Action: PauseClock, Keys: []string{"p"}, Short: "pause", Modes: []Mode{Main, Far, Lanes}, Rehearsal: true, Line: 5, Label: pauseLabel,
		Full: "Pauses the clock, or lets it go on."},
	{Action: Faster, Keys: []string{">", "."}, Short: "faster", Modes: []Mode{Main, Far}, Rehearsal: true, Line: 11,
		Full: "Lets the clock go faster, step by step up to 600 times as fast as a real one."},
	{Action: Slower, Keys: []string{"<", ","}, Short: "slower", Modes: []Mode{Main, Far}, Rehearsal: true,
		Full: "Lets the clock go slower, step by step down to real time."},
	{Action: HoldCues, Keys: []string{"h"}, Short: "run through", Modes: []Mode{Main, Far}, Rehearsal: true, Line: 12, Label: holdLabel,
		Full: "Holds the clock at each cue until it is answered, or runs through; then it ends by itself, a quarter of an hour after the last course, if nobody answers."},
	{Action: ShowHowItWent, Keys: []string{"D"}, Short: "how it went", Modes: views, Rehearsal: true, Line: 2, Off: offDebrief,
		Full: "Shows how it went, once everything is served: what was late and why, where hands were few, what waited, what to change."},
	{Action: ReadOn, Keys: []string{"space"}, Short: "read on", Modes: []Mode{Debrief}, Rehearsal: true, Line: 1, Label: readOnLabel,
		Full: "Reads on in how it went, and from the end goes back."},
	{Action: TickThing, Keys: []string{"space"}, Short: "it is there", Modes: []Mode{Walk}, Line: 1, Label: tickLabel,
		Full: "In a walk-through: ticks the marked thing; where all of it is ticked, shows the next cue."},
	{Action: TickAll, Keys: []string{"a"}, Short: "all there", Modes: []Mode{Walk}, Line: 2, Label: tickAllLabel,
		Full: "In a walk-through: ticks all that the cue asks for and shows the next."},
	{Action: Untick, Keys: []string{"x"}, Short: "not there", Modes: []Mode{Walk}, Line: 3, Off: offUntick,
		Full: "In a walk-through: takes the tick off the marked thing."},
	{Action: WalkOn, Keys: []string{"right", "n"}, Short: "next cue", Modes: []Mode{Walk}, Line: 4,
		Full: "In a walk-through: shows the next cue; what is not ticked is listed at the end."},
	{Action: WalkBack, Keys: []string{"left", "p"}, Short: "cue before", Modes: []Mode{Walk}, Line: 5, Off: offWalkBack,
		Full: "In a walk-through: shows the cue before."},
	{Action: ShowMissing, Keys: []string{"l"}, Short: "what is missing", Modes: []Mode{Walk}, Line: 6,
		Full: "In a walk-through: lists what is not ticked."},
	{Action: EndWalk, Keys: []string{"space", "enter"}, Short: "end the walk-through", Modes: []Mode{WalkEnd}, Line: 1,
		Full: "Ends the walk-through; what is not ticked stays on the terminal."},
	{Action: ShowHelp, Keys: []string{"?", "f1"}, Short: "help", Modes: append([]Mode{List, Log, Choices, Debrief, Walk, WalkEnd}, views...), Line: 10,
		Full: "Shows all keys."},
	{Action: Back, Keys: []string{"esc"}, Short: "back", Modes: modes, Line: 13, Label: backLabel,
		Full: "Steps back."},
	{Action: Leave, Keys: []string{"q", "ctrl+c"}, Short: "quit", Modes: append([]Mode{List, Help, Log, Debrief, Walk, WalkEnd}, views...), Line: 14,
		Full: "Ends the program, after asking where anything is going; the run can be gone on with."},
}

// aliases act like a row of another mode: keys that everybody tries.
var aliases = map[Mode]map[string]Action{
	Confirm:  {"n": Back, "q": Back, "ctrl+c": Leave},
	Prompt:   {"ctrl+c": Back},
	Finding:  {"ctrl+c": Back},
	Help:     {"?": Back, "space": Back, "enter": Back},
	Log:      {"g": Back, "space": Back, "enter": Back},
	Lanes:    {"v": Back},
	Debrief:  {"D": Back, "enter": Back},
	Days:     {"y": Back},
	StepView: {"o": Back, "enter": Back},
	Choices:  {"q": Back, "ctrl+c": Back, "w": Back, "r": Back},
}

// find returns the row that a key has in a mode, nil for none.
func find(mode Mode, key string) *Binding {
	for i := range bindings {
		if b := &bindings[i]; slices.Contains(b.Modes, mode) && slices.Contains(b.Keys, key) {
			return b
		}
	}
	if a, ok := aliases[mode][key]; ok {
		for i := range bindings {
			if bindings[i].Action == a {
				return &bindings[i]
			}
		}
	}
	return nil
}

// label is the short word of a row as the moment has it.
func (b *Binding) label(m *Model) string {
	if b.Label != nil {
		return b.Label(m)
	}
	return b.Short
}

// keys are the keys of a row, each between two marks; of those that follow each
// other, the first and the last: "1 to 9 0 a to i".
func (b *Binding) keys(mark string) string {
	var out []string
	for i := 0; i < len(b.Keys); i++ {
		first := i
		for i+1 < len(b.Keys) && len(b.Keys[i]) == 1 && len(b.Keys[i+1]) == 1 && b.Keys[i+1][0] == b.Keys[i][0]+1 {
			i++
		}
		out = append(out, mark+b.Keys[first]+mark)
		switch {
		case i > first+1:
			out = append(out, "to", mark+b.Keys[i]+mark)
		case i > first:
			out = append(out, mark+b.Keys[i]+mark)
		}
	}
	return strings.Join(out, " ")
}

// KeyTable returns the table of keys as Markdown rows, for the README.
func KeyTable() string {
	var s strings.Builder
	s.WriteString("| key | does |\n|---|---|\n")
	for i := range bindings {
		b := &bindings[i]
		full := b.Full
		if b.Rehearsal {
			full = "In a rehearsal: " + strings.ToLower(full[:1]) + full[1:]
		}
		s.WriteString("| " + b.keys("`") + " | " + full + " |\n")
	}
	return s.String()
}
