package tui_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// Where rows of what is going fold away, what ends first stays.
func TestWhatEndsNextIsNotFoldedAway(t *testing.T) {
	t.Parallel()
	stages, show := harvest(t)
	for _, st := range stages {
		for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 40}} {
			s := show(st, tuitest.Config{Width: size[0], Height: size[1]})
			if s.Model.Mode() != tui.Main || s.Model.Moment().Finished {
				continue
			}
			pane := ansi.Strip(tui.View(s.Model))
			_, pane, ok := strings.Cut(pane, "GOING")
			if !ok {
				continue
			}
			pane, _, _ = strings.Cut(pane, "OVEN")
			going := slices.Clone(s.Model.Moment().Going)
			slices.SortStableFunc(going, func(a, b run.Going) int { return a.End.Compare(b.End) })
			marked := s.Model.Marked()
			gone := false
			for _, g := range going {
				name, _, _ := strings.Cut(g.Label, " · ")
				shown := strings.Contains(pane, name[:min(len(name), 12)])
				if shown && gone && g.Label != marked {
					t.Errorf("%s %v: %s is shown, and something that ends before it is not:\n%s", st.Name, size, name, pane)
				}
				gone = gone || !shown
			}
		}
	}
}

// brokenDinner is a state whose timetable has a caution, and which breaks rules.
func brokenDinner(t *testing.T) *run.State {
	t.Helper()
	p, table := tuitest.Dinner()
	tt := *table
	tt.Cautions = []plan.Caution{{Code: "under-minimum", Step: p.StepIndex("chicken/roast"), Source: "a chart",
		Text: "by the chart of the food authority it is done at a higher temperature than that, measured in the thickest part away from the bone"}}
	for i := range p.Steps {
		if p.Steps[i].Keeps.Kind == plan.Liking {
			p.Steps[i].Keeps = plan.Keep{Kind: plan.Limit, For: time.Minute}
		}
	}
	state, err := run.Fold(p, append(tuitest.Opening(p, &tt), stage("three-at-once").Events...))
	if err != nil {
		t.Fatal(err)
	}
	return state
}

func TestCautionsAndBrokenRulesAreToldInFull(t *testing.T) {
	t.Parallel()
	state := brokenDinner(t)
	for _, size := range sizes {
		s := tuitest.NewOf(t, tuitest.Config{Width: size[0], Height: size[1], Now: stage("three-at-once").Now}, state)
		frame := s.Frame()
		broken := len(s.Model.Moment().Breaks)
		if broken < 4 {
			t.Fatalf("%d rules are broken, want some", broken)
		}
		if size[0] > 60 && !strings.Contains(frame, "Roast the chicken: by the chart") {
			t.Errorf("the caution does not say what it is about:\n%s", frame)
		}
		if size[0] == 120 && !strings.Contains(frame, "away from the bone") {
			t.Errorf("the caution is cut off:\n%s", frame)
		}
		if size[0] == 80 && !strings.Contains(frame, "more: g shows all") {
			t.Errorf("nothing leads to what is broken:\n%s", frame)
		}
		s.Keys("g")
		log := s.Frame()
		for range 60 {
			s.Press("up")
			log += s.Frame()
		}
		log = strings.Join(strings.Fields(log), " ")
		for _, b := range s.Model.Moment().Breaks {
			if b.Kind.Hard() && b.Kind != plan.BreakLate && !strings.Contains(log, strings.Join(strings.Fields(b.Text), " ")) && size[0] == 120 {
				t.Errorf("the log lacks %q", b.Text)
			}
		}
	}
}

// The word of the gravest class does not run into what is to be done.
func TestTheWordStandsApart(t *testing.T) {
	t.Parallel()
	for _, ascii := range []bool{false, true} {
		for name, what := range map[string]string{"DANGER": "DANGER ", "other": "NOW "} {
			s := at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(ascii)})
			cues := s.Model.Moment().Cues
			if name == "DANGER" {
				cues[0].Class = run.Danger
			}
			if !strings.Contains(s.Frame(), what+" ") && !strings.Contains(s.Frame(), what+cues[0].Text[:5]) {
				t.Errorf("ascii %v: the frame lacks %q apart from the text:\n%s", ascii, what, s.Frame())
			}
		}
	}
}

// A second screen offers no key that does nothing there.
func TestAFollowingScreenOffersNothing(t *testing.T) {
	t.Parallel()
	st := stage("three-at-once")
	p, table := tuitest.Dinner()
	state, err := run.Fold(p, append(tuitest.Opening(p, table), st.Events...))
	if err != nil {
		t.Fatal(err)
	}
	m := tui.NewModel(tui.Setup{State: state, Theme: theme.Bare(false), Following: true})
	m, _ = tui.Update(m, tui.BeatMsg{Instants: tui.Instants{At: st.Now, Real: st.Now}})
	frame := tui.View(m)
	for _, no := range []string{"space", "undo", "timer", "all as planned"} {
		if strings.Contains(frame, no) {
			t.Errorf("a screen that only follows offers %q:\n%s", no, frame)
		}
	}
}

// The help tells each key in full, at every width.
func TestHelpIsNotCut(t *testing.T) {
	t.Parallel()
	for _, size := range sizes {
		s := at(t, stage("three-at-once"), tuitest.Config{Width: size[0], Height: size[1]})
		s.Keys("?")
		for range 80 {
			if frame := s.Frame(); strings.Contains(frame, "…") {
				t.Fatalf("something is cut off:\n%s", frame)
			}
			s.Press("down")
		}
	}
}

// A time stands beside a cue only where it says something: when it came up, and for
// how long it has been there, but not that of a course that will be late, nor days.
func TestTimesOfCuesSaySomething(t *testing.T) {
	t.Parallel()
	block := func(change func(*run.Cue)) string {
		s := at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24})
		change(&s.Model.Moment().Cues[0])
		_, b, _ := strings.Cut(s.Frame(), "\n")
		b, _, _ = strings.Cut(b, "NEXT")
		return b
	}
	if b := block(func(*run.Cue) {}); !strings.Contains(b, "17:10") || !strings.Contains(b, "for 2:40") {
		t.Errorf("a cue lacks since when it is due:\n%s", b)
	}
	if b := block(func(c *run.Cue) { c.Due = c.Due.Add(-45 * time.Hour) }); !strings.Contains(b, "Thu 20:10") || strings.Contains(b, "for ") {
		t.Errorf("a cue of days ago:\n%s", b)
	}
	late := block(func(c *run.Cue) { c.Class, c.Course = run.LateCue, 1 })
	if strings.Contains(late, "17:10") || strings.Contains(late, "for ") {
		t.Errorf("a course that will be late has a time that nothing explains:\n%s", late)
	}
}
