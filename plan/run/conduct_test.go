package run_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/run"
)

// cues lists the open cues as "act start:lamb/season".
func cues(m run.Moment) []string {
	var out []string
	for _, c := range m.Cues {
		out = append(out, c.Class.String()+" "+c.ID)
	}
	return out
}

func unconfirmed(m run.Moment) []string {
	var out []string
	for _, u := range m.Unconfirmed {
		out = append(out, hm(u.At)+" "+u.Cue.ID)
	}
	return out
}

func going(m run.Moment) []string {
	var out []string
	for _, g := range m.Going {
		line := fmt.Sprintf("%s %s-%s", g.Label, hm(g.Start), hm(g.End))
		if g.Over {
			line += " over"
		}
		if g.Unconfirmed {
			line += " unconfirmed"
		}
		out = append(out, line)
	}
	return out
}

// Everything is answered at once, as planned: what is asked, minute by minute.
func TestCuesAsPlanned(t *testing.T) {
	t.Parallel()
	s := newSupper()
	for _, c := range []struct {
		now   string
		upTo  string
		cues  string
		going string
	}{
		{"14:57", "14:00", "", ""},
		{"14:58", "14:00", "soon soon:lamb/season", ""},
		{"15:00", "14:00", "act start:lamb/season", ""},
		{"15:10", "15:00", "act set:oven:lamb/roast", "Season · Lamb 15:00-15:15"},
		{"15:15", "15:10", "look end:lamb/season", "Season · Lamb 15:00-15:15 over"},
		{"15:18", "15:15", "soon soon:lamb/roast", ""},
		{"15:20", "15:15", "act start:lamb/roast", ""},
		{"17:15", "17:15", "", "Roast · Lamb 15:20-18:20, Prove · Flatbreads 17:15-18:40"},
		{"18:20", "17:15", "look end:lamb/roast", "Roast · Lamb 15:20-18:20 over, Prove · Flatbreads 17:15-18:40"},
		// The rest begins by itself, and asks nothing when it ends. That nobody read what
		// the lamb was inside is noted.
		{"18:21", "18:20", "note unmeasured:lamb/roast", "Prove · Flatbreads 17:15-18:40, Rest · Lamb 18:20-18:50"},
		{"18:40", "18:20", "act start:flatbreads/bake, note unmeasured:lamb/roast", "Prove · Flatbreads 17:15-18:40 over, Rest · Lamb 18:20-18:50"},
		{"18:50", "18:40", "act start:lamb/carve, note unmeasured:lamb/roast", "Rest · Lamb 18:20-18:50 over, Bake · Flatbreads 18:40-18:52"},
		{"18:52", "18:50", "look end:flatbreads/bake, note unmeasured:lamb/roast", "Bake · Flatbreads 18:40-18:52 over, Carve · Lamb 18:50-19:00"},
		{"19:00", "18:59", "look end:lamb/carve, note unmeasured:lamb/roast", "Carve · Lamb 18:50-19:00 over"},
		{"19:45", "19:40", "act serve:Sweet", "Cool · Pears 19:30-19:45 over"},
		{"19:45", "19:45", "", ""},
	} {
		t.Run(c.now+"-after-"+c.upTo, func(t *testing.T) {
			t.Parallel()
			m := run.Conduct(s.run(t, s.upTo(c.upTo)...), s.At(c.now))
			if got := strings.Join(cues(m), ", "); got != c.cues {
				t.Errorf("cues: got %q, want %q", got, c.cues)
			}
			if got := strings.Join(going(m), ", "); got != c.going {
				t.Errorf("going: got %q, want %q", got, c.going)
			}
			if len(m.Unconfirmed) > 0 || len(m.Breaks) > 0 {
				t.Errorf("got unconfirmed %v and breaks %v, want none", unconfirmed(m), m.Breaks)
			}
		})
	}
}

func TestServeAsked(t *testing.T) {
	t.Parallel()
	s := newSupper()
	m := run.Conduct(s.run(t, s.upTo("18:59", "19:00 finished lamb/carve")...), s.At("19:00"))
	if diff := cmp.Diff([]string{"act serve:Main", "note unmeasured:lamb/roast"}, cues(m)); diff != "" {
		t.Error(diff)
	}
}

// Nobody answers: cues drift for five minutes, then things are assumed.
func TestUnanswered(t *testing.T) {
	t.Parallel()
	s := newSupper()
	for _, c := range []struct {
		name, now    string
		upTo         string
		more         []string
		cues         string
		unconfirmed  string
		going        string
		start, serve string // projected: of the step asked for, of the Main
		step         int
	}{
		{
			name: "drifts", now: "15:24:30", upTo: "15:15", cues: "act start:lamb/roast",
			step: s.roast, start: "15:25", serve: "19:00",
		},
		{
			// The roast is assumed to be in since 15:20, and is listed.
			name: "unconfirmed", now: "15:25", upTo: "15:15", unconfirmed: "15:20 start:lamb/roast",
			going: "Roast · Lamb 15:20-18:20 unconfirmed", step: s.roast, start: "15:20", serve: "19:00",
		},
		{
			// A setting that nobody answers does not hold up the roast in the end.
			name: "setting", now: "15:20", upTo: "15:00", more: []string{"15:15 finished lamb/season"},
			cues: "act start:lamb/roast", unconfirmed: "15:10 set:oven:lamb/roast", step: s.roast, start: "15:20", serve: "19:00",
		},
		{
			// While it drifts, it does: nothing was put in a cold oven.
			name: "setting-drifts", now: "15:13:10", upTo: "15:00", cues: "act set:oven:lamb/roast",
			going: "Season · Lamb 15:00-15:15", step: s.roast, start: "15:24", serve: "19:00",
		},
		{
			name: "end-drifts", now: "18:23:20", upTo: "17:15", cues: "look end:lamb/roast",
			going: "Roast · Lamb 15:20-18:20 over, Prove · Flatbreads 17:15-18:40", step: s.rest, start: "18:24", serve: "19:00",
		},
		{
			// The rest follows at once, so it is assumed too, and asks nothing.
			name: "end-unconfirmed", now: "18:26", upTo: "17:15", unconfirmed: "18:20 end:lamb/roast, 18:20 set:oven:flatbreads/bake",
			going: "Prove · Flatbreads 17:15-18:40, Rest · Lamb 18:20-18:50 unconfirmed", step: s.rest, start: "18:20", serve: "19:00",
		},
		{
			// Gone for the whole afternoon: one list, and it goes on.
			name: "away", now: "18:53", upTo: "14:00",
			cues: "look end:flatbreads/bake, act start:lamb/carve, act set:oven:off",
			unconfirmed: "15:00 start:lamb/season, 15:10 set:oven:lamb/roast, 15:15 end:lamb/season, 15:20 start:lamb/roast, " +
				"17:00 start:flatbreads/knead, 17:15 end:flatbreads/knead, 17:15 start:flatbreads/prove, 18:20 end:lamb/roast, " +
				"18:20 set:oven:flatbreads/bake, 18:40 start:flatbreads/bake",
			going: "Rest · Lamb 18:20-18:50 over unconfirmed, Bake · Flatbreads 18:40-18:52 over unconfirmed",
			step:  s.carve, start: "18:53", serve: "19:03",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			m := run.Conduct(s.run(t, s.upTo(c.upTo, c.more...)...), s.At(c.now))
			if diff := cmp.Diff(c.cues, strings.Join(cues(m), ", ")); diff != "" {
				t.Errorf("cues: %s", diff)
			}
			if diff := cmp.Diff(c.unconfirmed, strings.Join(unconfirmed(m), ", ")); diff != "" {
				t.Errorf("unconfirmed: %s", diff)
			}
			if diff := cmp.Diff(c.going, strings.Join(going(m), ", ")); diff != "" {
				t.Errorf("going: %s", diff)
			}
			if got := hm(m.Projection.Start[c.step]); got != c.start {
				t.Errorf("start of %s: got %s, want %s", s.Plan.Steps[c.step].ID, got, c.start)
			}
			if got := hm(m.Projection.Serves[0]); got != c.serve {
				t.Errorf("serve of Main: got %s, want %s", got, c.serve)
			}
		})
	}
}

// All as planned, said after an afternoon away, leaves nothing unconfirmed, and
// makes the same run as if everything had been answered in time.
func TestAllAsPlanned(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st := s.run(t)
	now := s.At("18:49")
	for _, e := range run.AllAsPlanned(run.Conduct(st, now)) {
		next, err := st.Apply(e)
		if err != nil {
			t.Fatal(err)
		}
		st = next
	}
	if m := run.Conduct(st, now); len(m.Unconfirmed) > 0 {
		t.Errorf("still unconfirmed: %v", unconfirmed(m))
	}
	want := s.run(t, s.upTo("18:40")...)
	if diff := cmp.Diff(want.Steps, st.Steps); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(want.Sets, st.Sets); diff != "" {
		t.Error(diff)
	}
}

func TestNext(t *testing.T) {
	t.Parallel()
	s := newSupper()
	m := run.Conduct(s.run(t, s.upTo("18:20", "18:21 timer 4m eggs")...), s.At("18:21"))
	var got []string
	for _, u := range m.Next {
		got = append(got, hm(u.At)+" "+u.Cue.ID)
	}
	want := []string{
		"18:25 timer:12", "18:40 start:flatbreads/bake", "18:50 start:lamb/carve", "18:52 set:oven:off",
		"19:00 serve:Main", "19:10 start:pears/poach", "19:30 start:pears/cool", "19:45 serve:Sweet",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

// What each cue says, and what its answer records.
func TestWords(t *testing.T) {
	t.Parallel()
	s := newSupper()
	s.Cook("Tomas", "12:00-23:00")
	for _, c := range []struct{ now, upTo, id, text, label string }{
		{"15:00", "14:00", "start:lamb/season", "Season · Lamb · Ines", "started"},
		{"14:59", "14:00", "soon:lamb/season", "At 15:00: Season · Lamb · Ines", "seen"},
		{"15:10", "15:00", "set:oven:lamb/roast", "Set the oven to 165 °C · for Roast · Lamb", "set"},
		{"15:15", "15:10", "end:lamb/season", "Season · Lamb · done?", "done"},
		{"15:20", "15:15", "start:lamb/roast", "Put in: Roast · Lamb · oven at 165 °C", "started"},
		{"18:20", "17:15", "end:lamb/roast", "Roast · Lamb · look: 88 °C? pulls apart?", "done"},
		{"18:52", "18:50", "end:flatbreads/bake", "Bake · Flatbreads · take out", "done"},
		{"18:52", "18:50", "set:oven:off", "Switch the oven off", "off"},
		{"19:10", "19:00", "start:pears/poach", "Poach · Pears · small burner", "started"},
		{"19:30", "19:10", "end:pears/poach", "Poach · Pears · time is up", "done"},
		{"19:45", "19:30", "serve:Sweet", "Serve: Sweet", "served"},
	} {
		t.Run(c.id, func(t *testing.T) {
			t.Parallel()
			events := s.upTo(c.upTo)
			if c.id == "set:oven:off" { // asked once the oven is empty
				events = append(events, "18:52 finished flatbreads/bake")
			}
			st := s.run(t, events...)
			cue := find(run.Conduct(st, s.At(c.now)), c.id)
			if cue.Text != c.text || cue.Label != c.label {
				t.Errorf("got %q, %q, want %q, %q", cue.Text, cue.Label, c.text, c.label)
			}
			for _, e := range cue.Answer {
				e.At = s.At(c.now)
				next, err := st.Apply(e)
				if err != nil {
					t.Fatalf("answer: %v", err)
				}
				if find(run.Conduct(next, s.At(c.now)), c.id).Class >= 0 {
					t.Error("answered, but still asked")
				}
			}
		})
	}
}

// By the first-order model 160 °C are reached 9.82 minutes after 20, 165 after
// 10.33 (computed).
func TestOvens(t *testing.T) {
	t.Parallel()
	s := newSupper()
	oven := func(now, upTo string, more ...string) run.OvenMoment {
		return run.Conduct(s.run(t, s.upTo(upTo, more...)...), s.At(now)).Ovens[0]
	}
	if o := oven("15:00", "15:00"); o.On || o.Temp != 20 || o.Next == nil || !o.Next.At.Equal(s.At("15:10")) {
		t.Errorf("cold, 165 next: got %+v", o)
	}
	o := oven("15:15", "15:10")
	if !o.On || o.Set != 165 || o.Temp < 100 || o.Temp > 120 || hm(o.Ready.Truncate(time.Second)) != "15:20:19" {
		t.Errorf("heating: got %+v", o)
	}
	if o := oven("16:00", "15:20"); !o.Ready.IsZero() || o.Temp != 165 || !slices.Equal(o.Inside, []int{s.roast}) {
		t.Errorf("roasting: got %+v", o)
	}
	// Nobody said that it was set: the roast went in all the same.
	if o := oven("16:00", "14:00", "15:20 started lamb/roast"); !o.On || o.Temp != 165 {
		t.Errorf("set as the roast implies: got %+v", o)
	}
	// Nobody said anything.
	if o := oven("16:00", "14:00"); !o.On || o.Temp != 165 || !slices.Equal(o.Inside, []int{s.roast}) {
		t.Errorf("set as assumed: got %+v", o)
	}
	if o := oven("19:30", "19:10"); o.On || o.Next != nil || o.Temp > 200 || len(o.Inside) > 0 {
		t.Errorf("off: got %+v", o)
	}
}

// What a new timetable moved is told for five minutes, or until it was seen.
func TestMoved(t *testing.T) {
	t.Parallel()
	s := newSupper()
	events := append(s.events("15:00 started lamb/season"), run.Event{
		Kind: run.Adopted, At: s.At("15:02"), Timetable: &s.t, Why: []string{"Lamb later", "Main holds"}, Cause: 3,
	})
	st, err := run.Fold(&s.Plan, events)
	if err != nil {
		t.Fatal(err)
	}
	if c := find(run.Conduct(st, s.At("15:06:59")), "moved:4"); c.Class != run.Note || c.Text != "Lamb later\nMain holds" {
		t.Errorf("got %+v", c)
	}
	if c := find(run.Conduct(st, s.At("15:07")), "moved:4"); c.Class == run.Note {
		t.Error("told after five minutes")
	}
	seen, err := st.Apply(s.event("15:03 acknowledged moved:4"))
	if err != nil {
		t.Fatal(err)
	}
	if c := find(run.Conduct(seen, s.At("15:03")), "moved:4"); c.Class == run.Note {
		t.Error("seen, but told again")
	}
}

// Before a timetable is adopted there is nothing to conduct, and nothing fails.
func TestNoTimetable(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st, err := run.Fold(&s.Plan, s.events("15:00 started lamb/season", "15:01 timer 1m eggs")[:1])
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range []string{"15:01 timer 1m eggs", "15:02 prolonged lamb/season 5m", "15:10 finished lamb/season", "19:00 served Main"} {
		if st, err = st.Apply(s.event(line)); err != nil {
			t.Fatal(err)
		}
	}
	m := run.Conduct(st, s.At("19:00"))
	if len(m.Cues) > 0 || len(m.Courses) != 2 || len(m.Unconfirmed) != 1 || m.Finished {
		t.Errorf("got %+v", m)
	}
}
