package tui_test

import (
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/tui"
)

// A step that was found is marked on the main screen, before it has a row there and
// after.
func TestAFoundStepStaysMarked(t *testing.T) {
	t.Parallel()
	for typed, name := range map[string]string{"chicken roast": "Roast the chicken · Chicken legs", "carve": "Carve and plate the chicken · Chicken legs"} {
		t.Run(typed, func(t *testing.T) {
			t.Parallel()
			s := normal(t, "three-at-once")
			s.Keys("/")
			s.Type(typed)
			s.Keys("enter esc")
			want(t, "mode", s.Model.Mode(), tui.Main)
			shown := strings.Contains(strings.Join(marked(s), "\n"), "Roast the chicken") ||
				strings.Contains(s.Frame(), "marked: "+name+", in ")
			if !shown {
				t.Errorf("the frame does not show that %q is marked:\n%s", name, s.Frame())
			}
			s.Press("x")
			want(t, "question", s.Model.Question(), "Skip "+name+"?")
		})
	}
}

// A step that is over can be looked at; no key for the marked one acts on it.
func TestAStepThatIsOverIsNotMarked(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	before := s.Model.Marked()
	s.Keys("/")
	s.Type("season")
	s.Keys("enter esc")
	want(t, "marked", s.Model.Marked(), before)
	if frame := s.Frame(); strings.Contains(frame, "marked:") || len(marked(s)) != 1 {
		t.Errorf("the mark is not on one row:\n%s", frame)
	}
}

func TestEscOnTheMainScreenKeepsTheMark(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	before := s.Model.Marked()
	s.Keys("up")
	put := s.Model.Marked()
	s.Keys("esc")
	want(t, "after esc", s.Model.Marked(), put)
	s.Keys("? esc esc")
	want(t, "after esc again, later", s.Model.Marked(), put)
	s.Press("esc")
	want(t, "after esc twice", s.Model.Marked(), before)
}

// What loses something asks first, from the list of what went wrong too.
func TestWhatLosesSomethingAsksFirst(t *testing.T) {
	t.Parallel()
	for about, c := range map[string]struct{ question, event string }{
		"begin it again": {"Begin again: Peel the potatoes?", "record(redone potatoes/peel)"},
		"leave out all":  {"Leave out all of Potatoes?", "record(dropped)"},
	} {
		t.Run(about, func(t *testing.T) {
			t.Parallel()
			s := normal(t, "three-at-once")
			s.Keys("w")
			all := s.Model.Choices()
			i := slices.IndexFunc(all, func(s string) bool { return strings.Contains(s, about) })
			key, _, _ := strings.Cut(all[i], " ")
			s.Press(key)
			want(t, "question", s.Model.Question(), c.question)
			s.Keys("n")
			want(t, "recorded after no", recorded(s), []string(nil))
			s.Keys("w " + key + " y")
			want(t, "recorded after yes", recorded(s), []string{c.event})
		})
	}
}

// The numbers of what went wrong mean the same all evening: what cannot be told now
// keeps its place and says why.
func TestNumbersOfWhatWentWrongStay(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Keys("w")
	before := s.Model.Choices()
	if len(before) < 11 {
		t.Fatalf("%d choices, want more than ten: %q", len(before), before)
	}
	s.Press("2")
	if msg := s.Model.Message(); !strings.Contains(msg, "nothing holds it back") {
		t.Errorf("what cannot be told says %q", msg)
	}
	s.Keys("1 enter w 6 w 3 enter w")
	after := s.Model.Choices()
	want(t, "number of choices", len(after), len(before))
	for i, text := range map[int]string{0: "must wait", 1: "need not wait any longer", 2: "Ines is back", 3: "Tomas is away",
		4: "the oven has failed", 5: "a large burner has failed", 6: "a large burner works again", 7: "a small burner has failed"} {
		if !strings.HasSuffix(after[i], text) && i != 1 || !strings.Contains(after[i], text) {
			t.Errorf("%q, want it to be %q", after[i], text)
		}
	}
	s.Press("a") // the eleventh
	if got := recorded(s); !strings.Contains(got[len(got)-1], "reassigned") {
		t.Errorf("the eleventh is not taken: %q", got)
	}
}
