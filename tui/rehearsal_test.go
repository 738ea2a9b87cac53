package tui_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/walk"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// sections are a debrief as it may be, without what to change, and that.
func sections() (found []debrief.Section, change debrief.Section) {
	lines := func(texts ...string) (out []debrief.Line) {
		for _, s := range texts {
			out = append(out, debrief.Line{Text: strings.TrimPrefix(s, "  "), Under: strings.HasPrefix(s, "  ")})
		}
		return out
	}
	return []debrief.Section{
			{Title: "What went wrong", Lines: lines("18:40 the guests are 10 min late", "of 5 steps with a range 2 took longer than planned, 2 shorter")},
			{Title: "Late, and why", Lines: lines("Starter 19:10, on time for 19:10: asked for 10 min later than planned",
				"Main 19:58, 8 min late", "  Chicken legs: Roast the chicken took 1 h 55 min instead of 1 h 35 min", "Sweet 20:50, on time for 20:50: asked for 10 min later than planned")},
			{Title: "The tightest five minutes", Lines: lines("19:24 to 19:29: cooks at work for 9 of 10 min", "  4 calls: Flatbreads: Bake the flatbreads; Potatoes: Boil the potatoes; and 1 more")},
			{Title: "The longest wait of hot food", Lines: lines("Potatoes: Boil the potatoes: 26 min on the counter, from 19:12 until Main was served")},
			{Title: "Who stood idle", Lines: lines("Ines: 1 h 20 min of the 4 h 30 min from 16:08, the longest 42 min, 17:20 to 18:02", "Tomas: 2 h 5 min of the 4 h 30 min from 16:08")},
		}, debrief.Section{Title: "What to change", Lines: lines("played again, every cue answered when due and no way out taken: Main 8 min late",
			"plan Chicken legs: Roast the chicken with 1 h 55 min, as long as it took: all on time; begins 20 min sooner, 15:50",
			"tried, and no help: plan cautiously (--cautious)")}
}

// debriefed is a rehearsal that is over and looked back at.
func debriefed(t testing.TB, w, h int, th *theme.Theme) *tuitest.Screen {
	s := at(t, stage("served"), tuitest.Config{Width: w, Height: h, Theme: th, Rehearsal: true})
	found, change := sections()
	s.Send(tui.DebriefMsg{Sections: found})
	s.Send(tui.DebriefMsg{Sections: append(found, change), Final: true})
	s.Press("esc")
	return s
}

// stops are a walk-through as it may be.
func stops() []walk.Stop {
	thing := func(text string) walk.Thing { return walk.Thing{Name: text, Need: 1, Text: text} }
	return []walk.Stop{
		{At: tuitest.At(16, 30), Text: "Season the chicken · Chicken legs · Ines", Things: []walk.Thing{thing("Chicken legs: out of the fridge")}},
		{At: tuitest.At(16, 40), Text: "Set the oven to 400 °F · for Roast the chicken · Chicken legs"},
		{At: tuitest.At(17, 0), Text: "Put in: Roast the chicken · Chicken legs · oven at 400 °F", Things: []walk.Thing{
			thing("roasting pan"), thing("oven: 1 shelf"), thing("thermometer, to read 165 °F"), {Name: "sheet pan", Need: 2, Text: "2 × sheet pan"}}},
		{At: tuitest.At(19, 15), Text: "Put in: Bake the flatbreads · Flatbreads · oven at 475 °F", Things: []walk.Thing{
			thing("oven: 2 shelves"), {Name: "sheet pan", Need: 1, Text: "sheet pan"}}},
		{At: tuitest.At(20, 40), Text: "Serve: Sweet"},
	}
}

// walking is a walk-through.
func walking(t testing.TB, w, h int, th *theme.Theme) *tuitest.Screen {
	return at(t, stage("before"), tuitest.Config{Width: w, Height: h, Theme: th, Rehearsal: true, Walk: stops()})
}

// TestRehearsalViews keeps the views of a rehearsal and of a walk-through.
func TestRehearsalViews(t *testing.T) {
	t.Parallel()
	for _, v := range []struct {
		name string
		of   func(t testing.TB, w, h int, th *theme.Theme) *tuitest.Screen
		keys string
	}{
		{"debrief", debriefed, "D"},
		{"debrief-on", debriefed, "D space"},
		{"debrief-offered", debriefed, ""},
		{"walk", walking, "space space space"},
		{"walk-ticked", walking, "space space space a"},
		{"walk-nothing", walking, "space space"},
		{"walk-end", walking, "space space space n n n n"},
		{"walk-end-all", walking, "a a a a a a a"},
		{"walk-help", walking, "?"},
	} {
		for _, size := range sizes {
			name := fmt.Sprintf("rehearsal-%s-%dx%d", v.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				s := v.of(t, size[0], size[1], nil)
				s.Keys(v.keys)
				golden(t, name, s.Frame())
			})
		}
		t.Run(v.name+"-ascii", func(t *testing.T) {
			t.Parallel()
			s := v.of(t, 80, 24, theme.Bare(true))
			s.Keys(v.keys)
			frame := s.Frame()
			for _, r := range frame {
				if r > 126 {
					t.Fatalf("%q is no ASCII in:\n%s", r, frame)
				}
			}
			if v.name == "debrief" || v.name == "walk" {
				golden(t, "rehearsal-"+v.name+"-ascii", frame)
			}
		})
	}
}

// TestWalkBySpace: the space bar alone ticks everything and goes through every cue, and
// each time does what its label says.
func TestWalkBySpace(t *testing.T) {
	t.Parallel()
	s := walking(t, 80, 24, nil)
	var labels []string
	for s.Model.Mode() == tui.Walk {
		lines := strings.Split(strings.TrimRight(s.Frame(), "\n"), "\n")
		label, _, _ := strings.Cut(strings.TrimPrefix(lines[len(lines)-1], " space "), "  ")
		labels = append(labels, label)
		s.Press("space")
		if len(labels) > 20 {
			t.Fatal("it does not end")
		}
	}
	want(t, "labels", strings.Join(labels, ", "), "it is there, next cue, next cue, it is there, it is there, it is there, it is there, next cue, "+
		"it is there, next cue, what is missing")
	want(t, "missing at the end", len(s.Model.Missing()), 0)
	s.Press("space")
	if _, ends := s.Effects[len(s.Effects)-1].(tui.Quit); !ends {
		t.Errorf("space at the end does %v", s.Effects)
	}
}

// TestWalkGoesBack: what was passed by is listed, and can be gone back to; a tick can be
// taken off; nothing rings and nothing is told meanwhile.
func TestWalkGoesBack(t *testing.T) {
	t.Parallel()
	s := walking(t, 80, 24, nil)
	s.Turn(3 * time.Hour)
	s.Keys("n n space down space x l")
	var missing []string
	for _, m := range s.Model.Missing() {
		missing = append(missing, m.Text)
	}
	// Two were ticked, and the mark went on to the last, of which there is no tick to
	// take off.
	want(t, "missing", strings.Join(missing, "; "), "Chicken legs: out of the fridge; oven: 1 shelf; 2 × sheet pan; oven: 2 shelves")
	s.Keys("esc p p a")
	want(t, "missing after going back", s.Model.Missing()[0].Text, "oven: 1 shelf")
	s.Keys("n up up up x")
	want(t, "missing after taking a tick off", s.Model.Missing()[0].Text, "roasting pan")
	s.Keys("esc esc esc esc")
	want(t, "mode", s.Model.Mode(), tui.Walk)
	if !strings.Contains(s.Model.Message(), "first cue") {
		t.Errorf("esc at the first cue says %q", s.Model.Message())
	}
	for _, e := range s.Effects {
		t.Errorf("it does %v", e)
	}
}

// TestSpeeds: the keys lead from real time to 600 times as fast and back.
func TestSpeeds(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	s.Keys("> > > > >")
	if !strings.Contains(s.Model.Message(), "600") {
		t.Errorf("at full speed it says %q", s.Model.Message())
	}
	s.Keys("< < < < < < < < <")
	var got []float64
	for _, e := range s.Effects {
		if x, ok := e.(tui.SetSpeed); ok {
			got = append(got, x.Speed)
		}
	}
	want(t, "speeds", got, []float64{120, 300, 600, 300, 120, 60, 30, 10, 5, 2, 1})
	if frame := s.Frame(); !strings.Contains(frame, "real time") {
		t.Errorf("the speed is not shown:\n%s", frame)
	}
}

// TestRunThrough: a rehearsal that begins by running through is held at no cue.
func TestRunThrough(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true, Through: true})
	if got := lastHold(s); !got.IsZero() {
		t.Errorf("held at %s", got)
	}
	s.Press("h")
	if got := lastHold(s); !got.Equal(tuitest.At(16, 10)) {
		t.Errorf("after h held at %s, want 16:10", got)
	}
}

// TestMishapsAreTold as they happen.
func TestMishapsAreTold(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	s.Send(tui.BeatMsg{Instants: tui.Instants{At: s.Now, Real: s.Real}, Speed: 60, News: []string{"mishap: a large burner fails", "Boil the beans takes 27 min, planned 25 min"}})
	want(t, "message", s.Model.Message(), "mishap: a large burner fails; Boil the beans takes 27 min, planned 25 min")
}

// TestNewsLeaveAnErrorStanding until a key is pressed: it tells of an entry that was not
// written.
func TestNewsLeaveAnErrorStanding(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	now := tui.Instants{At: s.Now, Real: s.Real}
	s.Send(tui.RecordedMsg{Instants: now, State: s.Run.State(), Err: errors.New("no space left"), Said: "done"})
	s.Send(tui.BeatMsg{Instants: now, Speed: 60, News: []string{"mishap: a large burner fails"}})
	want(t, "message", s.Model.Message(), "not written: no space left")
	s.Press("f")
	s.Send(tui.BeatMsg{Instants: now, Speed: 60, News: []string{"mishap: a large burner works again"}})
	want(t, "message after a key", s.Model.Message(), "mishap: a large burner works again")
}

// TestDebriefIsSought once everything is served, shown when it comes, then what to change
// is sought; taken back with the serve that ended the dinner.
func TestDebriefIsSought(t *testing.T) {
	t.Parallel()
	s := at(t, stage("served"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	seeks := func() (out []tui.SeekDebrief) {
		for _, e := range s.Effects {
			if x, ok := e.(tui.SeekDebrief); ok {
				out = append(out, x)
			}
		}
		return out
	}
	s.Beat()
	want(t, "sought", seeks(), []tui.SeekDebrief{{}})
	s.Keys("D")
	if !strings.Contains(s.Model.Message(), "worked out") {
		t.Errorf("D before it is there says %q", s.Model.Message())
	}
	found, change := sections()
	s.Send(tui.DebriefMsg{Sections: found})
	want(t, "mode", s.Model.Mode(), tui.Debrief)
	want(t, "sought", seeks(), []tui.SeekDebrief{{}, {Change: true}})
	if !strings.Contains(strings.Join(s.Model.Told(), "\n"), "being played again") {
		t.Error("it does not say that it goes on")
	}
	s.Send(tui.DebriefMsg{Sections: append(found, change), Final: true})
	if told := strings.Join(s.Model.Told(), "\n"); strings.Contains(told, "being played again") || !strings.Contains(told, "begins 20 min sooner") {
		t.Errorf("it then tells:\n%s", told)
	}
	s.Keys("space space space u")
	s.Beat()
	if s.Model.Moment().Finished {
		t.Fatal("the last course is still served")
	}
	s.Keys("D")
	if !strings.Contains(s.Model.Message(), "a says that all went as planned") {
		t.Errorf("after the serve was taken back D says %q", s.Model.Message())
	}
	if on := at(t, stage("served"), tuitest.Config{Width: 80, Height: 24}); len(on.Effects) > 0 {
		for _, e := range on.Effects {
			if _, ok := e.(tui.SeekDebrief); ok {
				t.Error("a cook-day is looked back at")
			}
		}
	}
}

// TestRunThroughEnds: a rehearsal that runs through and that nobody answers ends by
// itself some time after its last course: all as planned, the clock stands, how it went
// is told. Taken back, it does not do so again.
func TestRunThroughEnds(t *testing.T) {
	t.Parallel()
	count := func(s *tuitest.Screen) (recorded, sought int) {
		for _, e := range s.Effects {
			switch e.(type) {
			case tui.Record:
				recorded++
			case tui.SeekDebrief:
				sought++
			}
		}
		return recorded, sought
	}
	last := func(s *tuitest.Screen) (at time.Time) {
		for _, c := range s.Model.Moment().Courses {
			at = plan.Later(at, c.Projected)
		}
		return at
	}
	s := at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true, Through: true})
	s.Press("D")
	if !strings.Contains(s.Model.Message(), "once everything is served") {
		t.Errorf("D at the beginning says %q", s.Model.Message())
	}
	for !s.Now.Add(30 * time.Second).After(last(s).Add(tui.NobodyAnswers)) {
		s.Turn(30 * time.Second)
	}
	if recorded, sought := count(s); recorded+sought != 0 || s.Model.Moment().Finished {
		t.Fatalf("%s before the end %d things are told and %d sought", tui.NobodyAnswers, recorded, sought)
	}
	s.Press("esc") // the list that was opened for who is away
	if frame := s.Frame(); !strings.Contains(frame, "nobody said so") || strings.Contains(frame, "Nothing to do") {
		t.Errorf("it does not say what it waits for:\n%s", frame)
	}
	s.Press("f")
	if frame := s.Frame(); !strings.Contains(frame, "The last course is past") {
		t.Errorf("the far view does not either:\n%s", frame)
	}
	s.Press("esc")
	s.Press("D")
	if !strings.Contains(s.Model.Message(), "a says that all went as planned") {
		t.Errorf("D says %q", s.Model.Message())
	}
	s.Turn(time.Minute)
	s.Beat()
	if recorded, sought := count(s); recorded != 1 || sought != 1 || !s.Model.Moment().Finished {
		t.Fatalf("%d things told, %d sought, finished %v", recorded, sought, s.Model.Moment().Finished)
	}
	want(t, "message", s.Model.Message(), "nobody answered: all as planned")
	want(t, "held at", lastHold(s), s.Now)
	if frame := s.Frame(); !strings.Contains(frame, "rehearsal, over") {
		t.Errorf("it does not say that it is over:\n%s", frame)
	}
	found, _ := sections()
	s.Send(tui.DebriefMsg{Sections: found})
	want(t, "mode", s.Model.Mode(), tui.Debrief)
	s.Keys("esc u")
	s.Beat()
	if s.Model.Moment().Finished {
		t.Error("it cannot be taken back")
	}

	s = at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	s.TurnTo(tuitest.At(23, 0)) // held at its cues a clock does not get there
	if recorded, _ := count(s); recorded != 0 {
		t.Error("a rehearsal that waits at its cues is answered by itself")
	}
	s = at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24})
	s.TurnTo(tuitest.At(23, 0))
	if recorded, _ := count(s); recorded != 0 {
		t.Error("a cook-day is answered by itself")
	}
}
