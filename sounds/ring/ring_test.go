package ring_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/ring"
)

var noon = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

// span is a cue that is open from one second to another.
type span struct {
	id       string
	class    run.Class
	from, to int
}

// story turns the clock second by second and writes down what rang when, as
// "class+louder@seconds". keys are pressed before the step of their second.
func story(to int, open []span, keys map[int]func(ring.State, time.Time) ring.State) string {
	var s ring.State
	var out []string
	for sec := range to {
		now := noon.Add(time.Duration(sec) * time.Second)
		if key := keys[sec]; key != nil {
			s = key(s, now)
		}
		var cues []ring.Cue
		for _, c := range open {
			if sec >= c.from && sec < c.to {
				cues = append(cues, ring.Cue{ID: c.id, Class: c.class})
			}
		}
		var r *ring.Ring
		if s, r = s.Step(now, cues); r != nil {
			out = append(out, fmt.Sprintf("%v+%d@%d", r.Class, r.Louder, sec))
		}
	}
	return strings.Join(out, " ")
}

func TestRule(t *testing.T) {
	t.Parallel()
	hush := func(s ring.State, now time.Time) ring.State { return s.Hush(now) }
	unhush := func(s ring.State, _ time.Time) ring.State { return s.Unhush() }
	sounded := func(s ring.State, now time.Time) ring.State { return s.Sounded(now) }
	const end = 10000
	tests := []struct {
		name string
		to   int
		open []span
		keys map[int]func(ring.State, time.Time) ring.State
		want string
	}{
		{"nothing", 1000, nil, nil, ""},
		// 40, 60, 90, 135, 202.5, … seconds apart.
		{"look-until-answered", 800, []span{{"a", run.Look, 5, 700}}, nil, "look+0@5 look+1@45 look+2@105 look+3@195 look+3@330 look+3@533"},
		{"act", 400, []span{{"a", run.Act, 0, end}}, nil, "act+0@0 act+1@60 act+2@150 act+3@285"},
		{"late", 150, []span{{"a", run.LateCue, 0, end}}, nil, "late+0@0 late+1@40 late+2@100"},
		{"danger-to-once-a-minute", 330, []span{{"a", run.Danger, 0, end}}, nil,
			"danger+0@0 danger+1@15 danger+2@38 danger+3@72 danger+3@123 danger+3@183 danger+3@243 danger+3@303"},
		{"soon-and-note-once", 3000, []span{{"a", run.Soon, 0, 120}, {"b", run.Note, 200, end}}, nil, "soon+0@0 note+0@200"},
		{"most-urgent-of-several", 70, []span{{"a", run.Act, 0, end}, {"b", run.Look, 0, 30}, {"c", run.Note, 0, end}}, nil, "look+0@0 act+1@60"},
		{"a-ring-counts-for-the-lesser", 230, []span{{"a", run.Look, 0, end}, {"b", run.Look, 30, end}, {"c", run.Act, 100, end}}, nil,
			"look+0@0 look+0@30 look+1@70 act+0@100 look+2@130 look+3@220"},
		{"rest", 30, []span{{"a", run.Act, 0, 5}, {"b", run.Look, 3, 30}, {"c", run.Act, 4, 30}}, nil, "act+0@0 look+0@10"},
		{"waiting-and-answered", 30, []span{{"a", run.Act, 0, 5}, {"b", run.Look, 3, 8}}, nil, "act+0@0"},
		{"danger-does-not-rest", 14, []span{{"a", run.Act, 0, end}, {"b", run.Danger, 2, 4}, {"c", run.Danger, 3, 4}, {"d", run.Look, 4, end}}, nil,
			"act+0@0 danger+0@2 danger+0@3 look+0@13"},
		{"more-urgent-than-it-was", 30, []span{{"a", run.Act, 0, 20}, {"a", run.LateCue, 20, end}}, nil, "act+0@0 late+0@20"},
		{"less-urgent-than-it-was", 90, []span{{"a", run.LateCue, 0, 20}, {"a", run.Act, 20, end}}, nil, "late+0@0 act+1@40"},
		{"gone-and-back-is-new", 30, []span{{"a", run.Act, 0, 5}, {"a", run.Act, 12, end}}, nil, "act+0@0 act+0@12"},
		{"silence", 700, []span{{"a", run.Look, 0, 200}, {"b", run.Act, 100, end}, {"c", run.Danger, 150, 330}},
			map[int]func(ring.State, time.Time) ring.State{20: hush}, "look+0@0 danger+0@320 act+1@380 act+2@470 act+3@605"},
		{"silence-ended", 120, []span{{"a", run.Look, 0, end}}, map[int]func(ring.State, time.Time) ring.State{20: hush, 80: unhush}, "look+0@0 look+1@80"},
		{"after-a-test", 30, []span{{"a", run.Look, 4, end}}, map[int]func(ring.State, time.Time) ring.State{0: sounded}, "look+0@10"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := story(tt.to, tt.open, tt.keys); got != tt.want {
				t.Errorf("rang\n%s, want\n%s", got, tt.want)
			}
		})
	}
}

// TestSleep: after hours in which the laptop slept all that came up rings once.
func TestSleep(t *testing.T) {
	t.Parallel()
	var s ring.State
	s, r := s.Step(noon, []ring.Cue{{ID: "a", Class: run.Act}})
	if r == nil {
		t.Fatal("nothing rang")
	}
	var open []ring.Cue
	for i := range 40 {
		open = append(open, ring.Cue{ID: fmt.Sprint("a", i), Class: run.LateCue + run.Class(i%4)})
	}
	rings := 0
	for sec := range 30 {
		if s, r = s.Step(noon.Add(3*time.Hour+time.Duration(sec)*time.Second), open); r != nil {
			rings++
			if r.Class != run.LateCue || sec > 0 {
				t.Errorf("%v rang %d seconds after", r.Class, sec)
			}
		}
	}
	if rings != 1 {
		t.Errorf("rang %d times, want once for the whole list", rings)
	}
}

// TestClockSetBack: a clock that is set back keeps nothing from ringing.
func TestClockSetBack(t *testing.T) {
	t.Parallel()
	var s ring.State
	open := []ring.Cue{{ID: "a", Class: run.Look}}
	s, _ = s.Step(noon, open)
	back := noon.Add(-time.Hour)
	var r *ring.Ring
	var at []int
	for sec := range 60 {
		if s, r = s.Step(back.Add(time.Duration(sec)*time.Second), open); r != nil {
			at = append(at, sec)
		}
	}
	if !slices.Equal(at, []int{40}) {
		t.Errorf("rang %v seconds after the clock was set back, want 40", at)
	}
}

// TestStepChangesNothing: the rule is a function of values, so that the screen can
// keep the state it had.
func TestStepChangesNothing(t *testing.T) {
	t.Parallel()
	open := []ring.Cue{{ID: "a", Class: run.Look}, {ID: "b", Class: run.Act}}
	var zero ring.State
	first, _ := zero.Step(noon, open)
	for range 2 {
		next, r := first.Step(noon.Add(40*time.Second), open)
		if r == nil || *r != (ring.Ring{Class: run.Look, Louder: 1}) {
			t.Errorf("rang %v, want look, a step louder", r)
		}
		_ = next.Hush(noon)
	}
	if first.Silent(noon) || zero.Silent(noon) {
		t.Error("a state that was passed on is silent")
	}
}

// TestLouderIsWhatSoundsHave: the ceiling of the rule is that of the sounds.
func TestLouderIsWhatSoundsHave(t *testing.T) {
	t.Parallel()
	if ring.Loudest != sounds.MaxRise {
		t.Errorf("the rule rises by %d steps, the sounds by %d", ring.Loudest, sounds.MaxRise)
	}
}
