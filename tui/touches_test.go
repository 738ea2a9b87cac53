package tui_test

import (
	"strings"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// Each minute in which a cook puts in, takes out, stirs or sets the oven is to be seen
// in the cook's lane, and told apart without colour, in both sets of symbols.
func TestTouchesAreInTheCooksLanes(t *testing.T) {
	t.Parallel()
	p, table, err := tuitest.Harvest(harvestTimetable)
	if err != nil {
		t.Fatal(err)
	}
	stages, show := harvest(t)
	st := stages[1] // before the day's first step
	for _, ascii := range []bool{false, true} {
		th := theme.Bare(ascii)
		s := show(st, tuitest.Config{Width: 200, Height: 60, Theme: th})
		s.Keys("v")
		drawn := strings.Join(cooksLanes(s.Frame(), p), "\n")
		for k, what := range []plan.TouchKind{plan.TouchStart, plan.TouchEnd, plan.TouchRemind, plan.TouchSet} {
			want := 0
			for _, touch := range table.Touches {
				if touch.What == what && touch.Cook >= 0 && touch.At.After(st.Now) {
					want++
				}
			}
			sign := th.Set.Touches[k][3]
			if got := strings.Count(drawn, sign); want == 0 || got != want {
				t.Errorf("%d times %q in the cooks' lanes, of %d touches of the kind %q:\n%s", got, sign, want, what, s.Frame())
			}
		}
	}
}

// A selected step's touches keep their signs, in both sets of symbols; the help explains
// each.
func TestTouchesOfTheSelectedStepAreSeen(t *testing.T) {
	t.Parallel()
	p, _, err := tuitest.Harvest(harvestTimetable)
	if err != nil {
		t.Fatal(err)
	}
	stages, show := harvest(t)
	for _, ascii := range []bool{false, true} {
		th := theme.Bare(ascii)
		s := show(stages[1], tuitest.Config{Width: 200, Height: 60, Theme: th})
		s.Keys("v")
		signs := func(frame string) (n int) {
			lanes := strings.Join(cooksLanes(frame, p), "\n")
			for _, touch := range th.Set.Touches {
				n += strings.Count(lanes, touch[3])
			}
			return n
		}
		all := signs(s.Frame())
		marked := map[string]bool{}
		for range 12 {
			s.Keys("down")
			for range 12 {
				s.Keys("right")
				frame := s.Frame()
				marked[frame] = true
				if got := signs(frame); got != all {
					t.Fatalf("%d signs of %d are seen:\n%s", got, all, frame)
				}
			}
		}
		if len(marked) < 12 {
			t.Errorf("only %d steps were selected", len(marked))
		}
		help := strings.Join(strings.Fields(strings.Join(s.Model.With(tui.Help).Told(), " ")), " ")
		for k, says := range []string{"puts in", "takes out", "stirs or turns", "sets the oven"} {
			if text := th.Set.Touches[k][3] + " " + says; !strings.Contains(help, text) {
				t.Errorf("the help lacks %q:\n%s", text, help)
			}
		}
	}
}

// cooksLanes are the lines of the cooks in the lanes view, without their labels.
func cooksLanes(frame string, p *plan.Plan) []string {
	var out []string
	in := false
	for _, l := range strings.Split(frame, "\n") {
		label := strings.TrimSpace(string([]rune(l + strings.Repeat(" ", 22))[1:22]))
		if label != "" {
			in = false
			for _, c := range p.Kitchen.Cooks {
				in = in || label == c.Name
			}
		}
		if in && len([]rune(l)) > 22 {
			out = append(out, string([]rune(l)[22:]))
		}
	}
	return out
}

// A touch goes with its step: what starts later is put in later.
func TestTouchesMoveWithTheirSteps(t *testing.T) {
	t.Parallel()
	stages, show := harvest(t)
	st := stages[1]
	at := func(more string) string {
		s := show(st, tuitest.Config{Width: 120, Height: 40})
		s.Keys(more + " v")
		for _, l := range strings.Split(s.Frame(), "\n") {
			if strings.Contains(l, "Ines") {
				return l
			}
		}
		return ""
	}
	if a, b := at(""), at("down down + + + + + +"); a == b || !strings.Contains(b, "↓") {
		t.Errorf("after half an hour more the lane is the same:\n%s\n%s", a, b)
	}
}
