package run_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// beef is a roast that goes in at 17:00 and is planned to come out at 18:45, at 57 °C.
//
//	17:00 roast at 160 ─ 18:45 rest ─ 19:05 carve ─ Main 19:15
func beef(food string) (s *supper, roast int) {
	b := plantest.New("2026-10-17 19:15")
	b.Cook("Ines", "12:00-23:00")
	main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	b.Dish("Beef", main)
	b.Plan.Dishes[0].Food = food
	roast = b.Step("Roast", plantest.Takes(105), plantest.Oven(160, 2), plantest.Limit(0))
	b.Plan.Steps[roast].Until = plan.Until{Temp: 57, HasTemp: true}
	b.Step("Rest", plantest.Waits(20, 60), plantest.AtOnce, plantest.Limit(0))
	b.Step("Carve", plantest.Takes(10), plantest.Keeps(5, 20))
	s = &supper{Builder: b}
	s.t.Slots = []plan.Slot{b.Slot("17:00", "18:45", "oven"), b.Slot("18:45", "19:05"), b.Slot("19:05", "19:15", "Ines")}
	s.t.Serves = []time.Time{b.At("19:15")}
	s.t.Sets = []plan.OvenSet{{At: b.At("16:50"), To: 160, For: roast, Ready: b.At("17:00")}, {At: b.At("18:45"), Off: true, For: -1}}
	return s, roast
}

const beefIn = "17:00 started beef/roast"

// probed are the readings of a computed roast each 10 minutes (package heat has where
// they come from) from 17:40 on, to the whole degree; it is truly done at 18:54.
var probed = []string{
	"17:40 reading beef/roast 14C", "17:50 reading beef/roast 21C", "18:00 reading beef/roast 28C",
	"18:10 reading beef/roast 35C", "18:20 reading beef/roast 41C", "18:30 reading beef/roast 46C",
}

func TestReadingMovesTheEnd(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		now    string
		end    string
		basis  heat.Basis
	}{
		{"none", nil, "18:00", "18:45", ""},
		{"one", probed[:1], "17:41", "18:45", heat.FromPlan},
		{"five", probed[:5], "18:20", "18:54", heat.FromFit},
		{"five-later", probed[:5], "18:40", "18:54", heat.FromFit},
		{"within-a-minute", append(slices.Clone(probed[:5]), "18:20 prolonged beef/roast 30s", "18:21 reading beef/roast 41C"), "18:21", "18:54:30", heat.FromFit},
		{"at-target", append(slices.Clone(probed), "18:36 reading beef/roast 57C"), "18:36", "18:36", heat.Reached},
		{"in-since-planned", probed[:5], "18:20", "18:54", heat.FromFit},
		{"cook-says-longer-after", append(slices.Clone(probed[:5]), "18:25 prolonged beef/roast 10m"), "18:25", "19:04", heat.FromFit},
		{"oven-fails", append(slices.Clone(probed[:5]), "18:30 reading beef/roast 38C", "18:40 reading beef/roast 35C"), "18:40", "18:56", heat.Stalled},
		{"dial-turned-up", append(slices.Clone(probed[:5]), "18:21 oven_set oven 200C", "18:30 reading beef/roast 46C"), "18:30", "18:54", heat.FromPlan},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s, roast := beef("")
			var events []string
			if c.name != "in-since-planned" {
				events = append(events, beefIn)
			}
			st := s.run(t, append(events, c.events...)...)
			if got := hm(run.Project(st, s.At(c.now)).End[roast]); got != c.end {
				t.Errorf("ends %s, want %s", got, c.end)
			}
			f := st.Steps[roast].Inside.Forecast
			if f == nil && c.basis != "" || f != nil && f.Basis != c.basis {
				t.Errorf("forecast %+v, want it from %q", f, c.basis)
			}
		})
	}
}

// In which order readings are told does not matter to the forecast, and one of the same
// time corrects the other.
func TestReadingsToldLate(t *testing.T) {
	t.Parallel()
	s, roast := beef("")
	want := s.run(t, append([]string{beefIn}, probed[:5]...)...).Steps[roast].Inside
	for name, events := range map[string][]string{
		"backwards": {probed[4], probed[3], probed[2], probed[1], probed[0]},
		"corrected": {probed[0], probed[1], "18:00 reading beef/roast 82C", probed[2], probed[3], probed[4]},
	} {
		got := s.run(t, append([]string{beefIn}, events...)...).Steps[roast].Inside
		if diff := cmp.Diff(want.Readings, got.Readings); diff != "" {
			t.Errorf("%s: readings: %s", name, diff)
		}
		if diff := cmp.Diff(want.Forecast, got.Forecast); diff != "" {
			t.Errorf("%s: forecast: %s", name, diff)
		}
	}
}

func TestReadingUndone(t *testing.T) {
	t.Parallel()
	s, _ := beef("")
	before := s.run(t, append([]string{beefIn}, probed[:4]...)...)
	after := s.run(t, append(append([]string{beefIn}, probed[:5]...), "18:21 undone 8")...) // the fifth is event 8
	if diff := cmp.Diff(before.Steps, after.Steps); diff != "" {
		t.Errorf("steps: %s", diff)
	}
}

// What is read before the roast goes in tells how cold it was; and does not start it.
func TestReadingBeforehand(t *testing.T) {
	t.Parallel()
	s, roast := beef("")
	st := s.run(t, "16:40 reading beef/roast 18C")
	if got := st.Steps[roast].Status; got != plan.Ahead {
		t.Errorf("status %v, want ahead", got)
	}
	// From 18 °C, 25 °C is too little to tell: from a fridge's 5 it would not be.
	st = s.run(t, "16:40 reading beef/roast 18C", beefIn, "17:20 reading beef/roast 20C", "17:30 reading beef/roast 25C")
	if got := st.Steps[roast].Inside.Forecast.Basis; got != heat.FromPlan {
		t.Errorf("forecast from %s, want %s", got, heat.FromPlan)
	}
}

func TestReadingRefused(t *testing.T) {
	t.Parallel()
	s, _ := beef("")
	_, err := s.run(t, "17:00 skipped beef/roast").Apply(s.event("17:30 reading beef/roast 20C"))
	if want := `"Roast" was skipped at 17:00, undo that first`; err == nil || err.Error() != want {
		t.Errorf("got %v, want %q", err, want)
	}
}

// cueOf is the open cue, or the one to come, of an ID.
func cueOf(m run.Moment, id string) (c run.Cue, open, coming bool) {
	for _, c := range m.Cues {
		if c.ID == id {
			return c, true, false
		}
	}
	for _, u := range m.Next {
		if u.Cue.ID == id {
			return u.Cue, false, true
		}
	}
	return run.Cue{}, false, false
}

// The early side of the forecast rings for five minutes, until it is answered, read again
// or due.
func TestEarlySideRings(t *testing.T) {
	t.Parallel()
	s, _ := beef("")
	five := append([]string{beefIn}, probed[:5]...)
	const id = "probe:beef/roast:5"
	for _, c := range []struct {
		name, now    string
		more         []string
		open, coming bool
	}{
		{"not-yet", "18:42", nil, false, true},
		{"from-18-42-32-on", "18:42:32", nil, true, false},
		{"still", "18:47", nil, true, false},
		{"let-go", "18:48", nil, false, false},
		{"seen", "18:45", []string{"18:43 acknowledged " + id}, false, false},
		{"read-again", "18:45", []string{"18:43 reading beef/roast 52C"}, false, false},
		{"due-itself", "18:54", nil, false, false},
		{"done", "18:46", []string{"18:45 finished beef/roast"}, false, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			cue, open, coming := cueOf(run.Conduct(s.run(t, append(slices.Clone(five), c.more...)...), s.At(c.now)), id)
			if open != c.open || coming != c.coming {
				t.Errorf("open %v, coming %v; want %v, %v", open, coming, c.open, c.coming)
			}
			if want := "Read again: Roast · Beef · 41 of 57 °C at 18:20 · done about 18:54, between 18:42 and 19:05 · the rest may bring it to 63 °C"; (open || coming) && (cue.Text != want || cue.Class != run.Look) {
				t.Errorf("%v %q, want look %q", cue.Class, cue.Text, want)
			}
		})
	}
}

// A reading is answered, whatever it says.
func TestReadingAnswered(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		now    string
		want   string
	}{
		{"too-early", probed[:1], "17:40", "14 of 57 °C at 17:40 · too early to tell: 18:45 as planned"},
		{"past-the-plan", []string{"18:46 reading beef/roast 40C"}, "18:46", "40 of 57 °C at 18:46 · too early to tell: the planned time is over"},
		{"forecast", probed[:5], "18:21", "41 of 57 °C at 18:20 · done about 18:54, between 18:42 and 19:05 · the rest may bring it to 63 °C"},
		{"at-target", append(slices.Clone(probed), "18:40 reading beef/roast 58C"), "18:41", "58 of 57 °C at 18:40 · done, the rest may bring it to 63 °C"},
		{"stalled", append(slices.Clone(probed[:5]), "18:30 reading beef/roast 38C", "18:40 reading beef/roast 35C"), "18:41", "35 of 57 °C at 18:40 · it hardly rises: no time can be told"},
		{"five-minutes-later", probed[:5], "18:25", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s, _ := beef("")
			m := run.Conduct(s.run(t, append([]string{beefIn}, c.events...)...), s.At(c.now))
			got := ""
			for _, cue := range m.Cues {
				if strings.HasPrefix(cue.ID, "read:") {
					got = cue.Text
				}
			}
			if c.want != "" {
				c.want = "Roast · Beef · " + c.want
			}
			if got != c.want {
				t.Errorf("got  %q\nwant %q", got, c.want)
			}
		})
	}
}

func TestGoingTellsTheReading(t *testing.T) {
	t.Parallel()
	s, _ := beef("")
	m := run.Conduct(s.run(t, append([]string{beefIn}, probed[:5]...)...), s.At("18:30"))
	if len(m.Going) != 1 || m.Going[0].Ends != "41 of 57 °C" {
		t.Errorf("going %+v, want it to say 41 of 57 °C", m.Going)
	}
}

// Food that is done, or taken to be, is asked about where no reading says it is safe.
func TestSafetyAsked(t *testing.T) {
	t.Parallel()
	const unmeasured, unsafe = "unmeasured:beef/roast", "unsafe:beef/roast"
	for _, c := range []struct {
		name, food string
		events     []string
		now        string
		want       string // "danger unsafe:beef/roast"; empty: nothing
	}{
		{"not-done", "whole-red", nil, "18:40", ""},
		{"no-reading", "whole-red", []string{"18:45 finished beef/roast"}, "18:46", "danger " + unmeasured},
		{"no-reading-no-class", "", []string{"18:45 finished beef/roast"}, "18:46", "note " + unmeasured},
		{"class-without-temperature", "scallop", []string{"18:45 finished beef/roast"}, "18:46", "note " + unmeasured},
		{"below", "whole-red", []string{"18:40 reading beef/roast 57C", "18:45 finished beef/roast"}, "18:46", "danger " + unsafe},
		{"below-by-a-little", "whole-red", []string{"18:40 reading beef/roast 62.7C", "18:45 finished beef/roast"}, "18:46", "danger " + unsafe},
		{"below-no-class", "", []string{"18:40 reading beef/roast 50C", "18:45 finished beef/roast"}, "18:46", ""},
		{"above", "whole-red", []string{"18:40 reading beef/roast 63C", "18:45 finished beef/roast"}, "18:46", ""},
		{"chart-in-whole-celsius", "ground-red", []string{"18:40 reading beef/roast 71C", "18:45 finished beef/roast"}, "18:46", ""},
		{"chart-below-celsius", "ground-red", []string{"18:40 reading beef/roast 70C", "18:45 finished beef/roast"}, "18:46", "danger " + unsafe},
		{"above-other-class", "poultry", []string{"18:40 reading beef/roast 63C", "18:45 finished beef/roast"}, "18:46", "danger " + unsafe},
		{"only-an-earlier-one-above", "whole-red", []string{"18:30 reading beef/roast 80C", "18:40 reading beef/roast 55C", "18:45 finished beef/roast"}, "18:46", "danger " + unsafe},
		{"risen-in-the-rest", "whole-red", []string{"18:40 reading beef/roast 58C", "18:45 finished beef/roast", "19:00 reading beef/roast 63C"}, "19:01", ""},
		{"cooled-since", "whole-red", []string{"18:44 reading beef/roast 63C", "18:45 finished beef/roast", "19:05 reading beef/roast 60C"}, "19:06", ""},
		{"measured-afterwards", "whole-red", []string{"18:45 finished beef/roast", "18:47 reading beef/roast 64C"}, "18:48", ""},
		// Nobody told that it is done: after five minutes it is taken to be, and no check is passed.
		{"unconfirmed", "whole-red", nil, "18:51", "danger " + unmeasured},
		{"unconfirmed-no-class", "", nil, "18:51", ""},
		{"unconfirmed-below", "whole-red", []string{"18:40 reading beef/roast 57C"}, "18:51", "danger " + unsafe},
		{"implied", "whole-red", []string{"19:05 started beef/carve"}, "19:06", "danger " + unmeasured},
		{"served", "whole-red", []string{"19:15 served Main"}, "19:16", "danger " + unmeasured},
		{"answered", "whole-red", []string{"18:45 finished beef/roast", "18:46 acknowledged " + unmeasured}, "18:47", ""},
		// What is told after that is another matter.
		{"answered-then-read", "whole-red", []string{"18:45 finished beef/roast", "18:46 acknowledged " + unmeasured, "18:50 reading beef/roast 58C"}, "18:51", "danger " + unsafe},
		{"answered-again", "whole-red", []string{"18:40 reading beef/roast 57C", "18:45 finished beef/roast", "18:46 acknowledged " + unsafe, "18:50 reading beef/roast 58C"}, "18:51", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			s, _ := beef(c.food)
			m := run.Conduct(s.run(t, append([]string{beefIn}, c.events...)...), s.At(c.now))
			var got []string
			for _, l := range cues(m) {
				if strings.Contains(l, "unmeasured:") || strings.Contains(l, "unsafe:") {
					got = append(got, l)
				}
			}
			if strings.Join(got, ", ") != c.want {
				t.Errorf("asks %q, want %q", got, c.want)
			}
		})
	}
}

// What is below by less than the display shows does not read as if it were enough.
func TestUnsafeDoesNotContradictItself(t *testing.T) {
	t.Parallel()
	s, _ := beef("whole-red")
	c, _, _ := cueOf(run.Conduct(s.run(t, beefIn, "18:40 reading beef/roast 62.7C", "18:45 finished beef/roast"), s.At("18:46")), "unsafe:beef/roast")
	if !strings.Contains(c.Text, "read just under 63 °C inside · safe from 63 °C") {
		t.Errorf("got %q", c.Text)
	}
}

// British rules do not soften what a single reading is asked about; what they say of
// holding is beside it.
func TestUnsafeUnderBritishRules(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ food, read, want string }{
		{"poultry", "71C", "Roast · Beef · read 71 °C inside · safe from 74 °C; British advice (Food Standards Agency): held at 70 °C for 2 minutes, or 75 °C for 30 seconds: measure, or put it back (FoodSafety.gov, Safe Minimum Internal Temperatures)"},
		{"poultry", "74C", ""},
		{"whole-red", "57C", "Roast · Beef · read 57 °C inside · safe from 63 °C and 3 min of rest: measure, or put it back (FoodSafety.gov, Safe Minimum Internal Temperatures)"},
	} {
		s, _ := beef(c.food)
		s.Plan.Rules = "uk"
		q, _, _ := cueOf(run.Conduct(s.run(t, beefIn, "18:40 reading beef/roast "+c.read, "18:45 finished beef/roast"), s.At("18:46")), "unsafe:beef/roast")
		if q.Text != c.want {
			t.Errorf("got  %q\nwant %q", q.Text, c.want)
		}
	}
}

// The answer is an event that says what the cook was told, so that it is in the journal.
func TestSafetyAnswerIsRecorded(t *testing.T) {
	t.Parallel()
	s, _ := beef("whole-red")
	st := s.run(t, beefIn, "18:40 reading beef/roast 57C", "18:45 finished beef/roast")
	c, open, _ := cueOf(run.Conduct(st, s.At("18:46")), "unsafe:beef/roast")
	if !open || len(c.Answer) != 1 {
		t.Fatalf("cue %+v, want one with an answer", c)
	}
	want := "Roast · Beef · read 57 °C inside · safe from 63 °C and 3 min of rest: measure, or put it back (FoodSafety.gov, Safe Minimum Internal Temperatures)"
	if c.Text != want {
		t.Errorf("got  %q\nwant %q", c.Text, want)
	}
	e := c.Answer[0]
	e.At = s.At("18:46")
	st, err := st.Apply(e)
	if err != nil {
		t.Fatal(err)
	}
	if last := st.Events[len(st.Events)-1]; last.Kind != run.Acknowledged || last.Step != "beef/roast" || last.Text != want {
		t.Errorf("recorded %+v, want the step and %q", last, want)
	}
	if got := fmt.Sprint(cues(run.Conduct(st, s.At("18:47")))); strings.Contains(got, "unsafe") {
		t.Errorf("asked again: %s", got)
	}
}
