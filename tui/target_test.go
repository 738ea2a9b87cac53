package tui_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// marked are the lines of the frame that have the mark.
func marked(s *tuitest.Screen) (out []string) {
	for l := range strings.SplitSeq(s.Frame(), "\n") {
		if strings.Contains(l, "›") {
			out = append(out, l)
		}
	}
	return out
}

// TestOneMarkOneTarget: whatever is selected, one row is marked, and it is the
// one that is skipped.
func TestOneMarkOneTarget(t *testing.T) {
	t.Parallel()
	for _, st := range tuitest.Stages() {
		if st.Name == "list-on-return" {
			continue // the list has rows of its own
		}
		for downs := range 6 {
			t.Run(fmt.Sprint(st.Name, "-", downs), func(t *testing.T) {
				t.Parallel()
				s := at(t, st, tuitest.Config{Width: 120, Height: 40})
				s.Keys(strings.Repeat("down ", downs))
				m := s.Model.Moment()
				lines := marked(s)
				if len(m.Cues)+len(m.Going) == 0 {
					want(t, "marked rows where there is none", len(lines), 0)
					return
				}
				if len(lines) != 1 {
					t.Fatalf("%d rows are marked, want one:\n%s", len(lines), s.Frame())
				}
				s.Press("x")
				name := strings.TrimSuffix(strings.TrimPrefix(strings.TrimPrefix(s.Model.Question(), "Skip "), "Stop the timer "), "?")
				name, _, _ = strings.Cut(name, " · ")
				if s.Model.Mode() == tui.Confirm && !strings.Contains(lines[0], name) {
					t.Errorf("asks %q and marks %q", s.Model.Question(), lines[0])
				}
			})
		}
	}
}

// TestKeysActOnTheMarkedRow: with a cue open and nothing selected, what ends
// first is marked, and all keys for a row act on it.
func TestKeysActOnTheMarkedRow(t *testing.T) {
	t.Parallel()
	for keys, event := range map[string]string{
		"d": "finished potatoes/peel", "x y": "skipped potatoes/peel", "+": "prolonged potatoes/peel 5m0s",
		"e 7 enter": "prolonged potatoes/peel 7m0s", "down d": "started pears/simmer", "down x y": "skipped pears/simmer",
	} {
		t.Run(keys, func(t *testing.T) {
			t.Parallel()
			s := normal(t, "three-at-once")
			s.Keys(keys)
			want(t, "recorded", recorded(s), []string{"record(" + event + ")"})
		})
	}
}

// TestHeaderAndCoursesAgree while a dinner goes on that nobody answers for.
func TestHeaderAndCoursesAgree(t *testing.T) {
	t.Parallel()
	header := regexp.MustCompile(`(\S+) in (\S.*?)\s*$`)
	for _, st := range tuitest.Stages() {
		t.Run(st.Name, func(t *testing.T) {
			t.Parallel()
			s := at(t, st, tuitest.Config{Width: 120, Height: 40})
			for range 60 {
				s.Turn(4 * time.Minute)
				frame := s.Frame()
				top, rest, _ := strings.Cut(frame, "\n")
				if strings.Contains(top, " since ") {
					t.Fatalf("a course that is not served is told to have come: %s", top)
				}
				got := header.FindStringSubmatch(top)
				if got == nil {
					continue
				}
				name := got[1]
				if name == "table" {
					name = "Starter"
				}
				row := regexp.MustCompile(regexp.QuoteMeta(got[2]) + `\s+\d\d:\d\d\s+` + name)
				if !row.MatchString(rest) {
					t.Fatalf("the header says %q, the courses do not:\n%s", got[0], frame)
				}
			}
		})
	}
}

// TestHintOfALongTitle: the hint of a prompt is whole, the title is cut.
func TestHintOfALongTitle(t *testing.T) {
	t.Parallel()
	for _, size := range sizes {
		s := hostile(t, stage("list-on-return"), tuitest.Config{Width: size[0], Height: size[1]})
		for i := range s.Model.Moment().Unconfirmed {
			s.Keys(strings.Repeat("down ", i) + "w")
			if !regexp.MustCompile(`when it happened, such as \d\d:\d\d`).MatchString(s.Frame()) {
				t.Errorf("%v: the hint is cut:\n%s", size, s.Frame())
			}
			s.Press("esc")
		}
	}
}

// TestBrokenSaysWhat: of a name with its dish, what is wrong with it is told too.
func TestBrokenSaysWhat(t *testing.T) {
	t.Parallel()
	p, table := tuitest.Dinner()
	i := p.StepIndex("pears/simmer")
	p.Steps[i].Keeps = plan.Keep{Kind: plan.Limit, For: time.Minute, AtMost: time.Minute}
	st := stage("three-at-once")
	state, err := run.Fold(p, append(tuitest.Opening(p, table), st.Events...))
	if err != nil {
		t.Fatal(err)
	}
	s := tuitest.NewOf(t, tuitest.Config{Width: 80, Height: 24, Now: st.Now}, state)
	if !strings.Contains(s.Frame(), "Simmer the pears · Pears in wine is kept") {
		t.Errorf("what is broken is not told:\n%s", s.Frame())
	}
}

// TestLatenessIsNotCut: where there is no room for how late a course may be, how
// late it is stands alone.
func TestLatenessIsNotCut(t *testing.T) {
	t.Parallel()
	for width := tui.LeastWidth; width < 120; width++ {
		s := at(t, stage("three-at-once"), tuitest.Config{Width: width, Height: 40})
		for range 34 {
			s.Press("+") // what ends first, and then the same
		}
		_, courses, _ := strings.Cut(s.Frame(), "COURSES")
		if !strings.Contains(courses, " late") {
			t.Fatalf("nothing is late:\n%s", s.Frame())
		}
		for l := range strings.SplitSeq(courses, "\n") {
			if _, after, ok := strings.Cut(l, " late"); ok && strings.Contains(after, "…") {
				t.Errorf("%d wide: %s", width, l)
			}
		}
	}
}
