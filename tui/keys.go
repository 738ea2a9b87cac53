package tui

import (
	"slices"
	"strings"
)

// Action is something the cook can do.
type Action string

// Actions.
const (
	Answer     Action = "answer"
	Finish     Action = "finish"
	More       Action = "more"
	MoreBy     Action = "more-by"
	Skip       Action = "skip"
	Undo       Action = "undo"
	NewTimer   Action = "timer"
	SelectUp   Action = "up"
	SelectDown Action = "down"
	ShowList   Action = "list"
	AllPlanned Action = "all-planned"
	AsPlanned  Action = "as-planned"
	JustNow    Action = "just-now"
	WhenAt     Action = "when"
	Yes        Action = "yes"
	Accept     Action = "accept"
	Back       Action = "back"
	ShowHelp   Action = "help"
	Leave      Action = "quit"
	PauseClock Action = "pause"
	Faster     Action = "faster"
	Slower     Action = "slower"
	NextCue    Action = "next-cue"
	HoldCues   Action = "hold"
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

// bindings is the one table of keys.
var bindings = []Binding{
	{Action: Answer, Keys: []string{"space"}, Short: "done", Modes: []Mode{Main}, Line: 1, Label: answerLabel, Off: offAnswer,
		Full: "Does the obvious thing: answers the most urgent cue, as its label says."},
	{Action: Yes, Keys: []string{"y", "enter"}, Short: "yes", Modes: []Mode{Confirm}, Line: 1, Label: yesLabel,
		Full: "Says yes to the question."},
	{Action: Accept, Keys: []string{"enter"}, Short: "accept", Modes: []Mode{Prompt}, Line: 1,
		Full: "Takes what was typed."},
	{Action: AllPlanned, Keys: []string{"a"}, Short: "all as planned", Modes: []Mode{Main, List}, Line: 2, Off: offList,
		Full: "Everything that nobody answered went as planned."},
	{Action: AsPlanned, Keys: []string{"enter", "space"}, Short: "as planned", Modes: []Mode{List}, Line: 3, Off: offList,
		Full: "The marked thing went as planned."},
	{Action: JustNow, Keys: []string{"n"}, Short: "not yet: now", Modes: []Mode{List}, Line: 4, Off: offList,
		Full: "The marked thing had not happened yet: it starts now, or goes on for five minutes more."},
	{Action: WhenAt, Keys: []string{"w"}, Short: "when", Modes: []Mode{List}, Line: 5, Off: offList,
		Full: "Asks when the marked thing happened."},
	{Action: More, Keys: []string{"+", "=", "m"}, Short: "5 min more", Modes: []Mode{Main}, Line: 3, Off: offMore,
		Full: "Gives the marked step five minutes more; again, another five."},
	{Action: MoreBy, Keys: []string{"e"}, Short: "more by", Modes: []Mode{Main}, Off: offMore,
		Full: "Asks how many minutes more the marked step takes."},
	{Action: Finish, Keys: []string{"d", "enter"}, Short: "marked done", Modes: []Mode{Main}, Line: 7, Off: offSelected,
		Full: "The marked cue or step is done."},
	{Action: Skip, Keys: []string{"x"}, Short: "skip", Modes: []Mode{Main}, Off: offSelected,
		Full: "Leaves the marked step out, after asking."},
	{Action: Undo, Keys: []string{"u"}, Short: "undo", Modes: []Mode{Main, List}, Line: 6, Off: offUndo,
		Full: "Takes back the last thing you told, and says which."},
	{Action: NewTimer, Keys: []string{"t"}, Short: "timer", Modes: []Mode{Main}, Line: 8, Off: offWriting,
		Full: "Sets a quick timer: a label and the minutes, such as tea 4."},
	{Action: SelectUp, Keys: []string{"up", "k", "shift+tab"}, Short: "up", Modes: []Mode{Main, List, Help}, Off: offRows,
		Full: "Marks the row above."},
	{Action: SelectDown, Keys: []string{"down", "j", "tab"}, Short: "move mark", Modes: []Mode{Main, List, Help}, Line: 9, Off: offRows,
		Full: "Marks the row below."},
	{Action: ShowList, Keys: []string{"l"}, Short: "list", Modes: []Mode{Main}, Off: offList,
		Full: "Lists what nobody answered, to say of each: done, not yet, or when."},
	{Action: NextCue, Keys: []string{"n"}, Short: "next cue", Modes: []Mode{Main}, Rehearsal: true, Line: 4, Off: offNext,
		Full: "Jumps to the next cue."},
	{Action: PauseClock, Keys: []string{"p"}, Short: "pause", Modes: []Mode{Main}, Rehearsal: true, Line: 5, Label: pauseLabel,
		Full: "Pauses the clock, or lets it go on."},
	{Action: Faster, Keys: []string{">", "."}, Short: "faster", Modes: []Mode{Main}, Rehearsal: true, Line: 11,
		Full: "Doubles the speed of the clock."},
	{Action: Slower, Keys: []string{"<", ","}, Short: "slower", Modes: []Mode{Main}, Rehearsal: true,
		Full: "Halves the speed of the clock."},
	{Action: HoldCues, Keys: []string{"h"}, Short: "run through", Modes: []Mode{Main}, Rehearsal: true, Line: 12, Label: holdLabel,
		Full: "Holds the clock at each cue until it is answered, or runs through."},
	{Action: ShowHelp, Keys: []string{"?", "f1"}, Short: "help", Modes: []Mode{Main, List}, Line: 10,
		Full: "Shows all keys."},
	{Action: Back, Keys: []string{"esc"}, Short: "back", Modes: []Mode{Main, List, Confirm, Prompt, Help}, Line: 13, Label: backLabel,
		Full: "Steps back."},
	{Action: Leave, Keys: []string{"q", "ctrl+c"}, Short: "quit", Modes: []Mode{Main, List, Help}, Line: 14,
		Full: "Ends the program, after asking where anything is going; the run can be gone on with."},
}

// aliases act like a row of another mode: keys that everybody tries.
var aliases = map[Mode]map[string]Action{
	Confirm: {"n": Back, "q": Back, "ctrl+c": Leave},
	Prompt:  {"ctrl+c": Back},
	Help:    {"?": Back, "space": Back, "enter": Back},
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
		s.WriteString("| `" + strings.Join(b.Keys, "` `") + "` | " + full + " |\n")
	}
	return s.String()
}
