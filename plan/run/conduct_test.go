package run_test

import (
	"fmt"
	"strings"
	"testing"

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
		// The rest begins by itself, and asks nothing when it ends.
		{"18:21", "18:20", "", "Prove · Flatbreads 17:15-18:40, Rest · Lamb 18:20-18:50"},
		{"18:40", "18:20", "act start:flatbreads/bake", "Prove · Flatbreads 17:15-18:40 over, Rest · Lamb 18:20-18:50"},
		{"18:50", "18:40", "act start:lamb/carve", "Rest · Lamb 18:20-18:50 over, Bake · Flatbreads 18:40-18:52"},
		{"18:52", "18:50", "look end:flatbreads/bake", "Bake · Flatbreads 18:40-18:52 over, Carve · Lamb 18:50-19:00"},
		{"19:00", "18:59", "look end:lamb/carve", "Carve · Lamb 18:50-19:00 over"},
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
	if diff := cmp.Diff([]string{"act serve:Main"}, cues(m)); diff != "" {
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
			name: "setting-drifts", now: "15:13:10", upTo: "15:00", cues: "late conflict:oven:lamb/roast:5, act set:oven:lamb/roast",
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
