package solve

import (
	"math"
	"slices"
	"testing"
)

// What is in at one time is under one setting, though one of it alone could go on
// with the value before.
func TestGroupsOfOneMoment(t *testing.T) {
	t.Parallel()
	pl := &placer{
		p: &Problem{
			States: []State{{Idle: 60}},
			Stays: []Stay{
				{Lo: 200, Hi: 225, Goal: 205, Continues: -1},
				{Lo: 185, Hi: 205, Goal: 195, Continues: -1},
				{Lo: 170, Hi: 195, Goal: 180, Continues: -1},
			},
		},
		visits: [][]visit{{{0, 100, 115}, {1, 127, 156}, {2, 127, 161}}},
	}
	got := pl.groups(0)
	if len(got) != 2 || len(got[0].visits) != 1 || got[0].end != 115 || got[0].lo != 200 || got[0].hi != 225 {
		t.Fatalf("groups %+v, want the first stay alone", got)
	}
	if g := got[1]; g.lo != 185 || g.hi != 195 || g.start != 127 || g.end != 161 {
		t.Errorf("the others have %+v, want 185 to 195 from 127 to 161", g)
	}
}

// What is set already counts from now on: it is not left alone though the last
// stay was long ago, and is by the start of a stay as near as that stay wants it.
func TestSetAlready(t *testing.T) {
	t.Parallel()
	minute := func(from, to float64) float64 { return math.Abs(to - from) } // a degree a tick
	for name, c := range map[string]struct {
		state  State
		stays  []Stay
		visits []visit
		want   []window
	}{
		"long-ago": {
			State{Initial: 150, IsSet: true, Now: 200, SetFrom: 200, Rest: 20, Idle: 60, Drift: minute},
			[]Stay{{Lo: 100, Hi: 120, Continues: -1}, {Lo: 190, Hi: 210, Continues: -1}},
			[]visit{{0, 80, 100}, {1, 250, 270}}, nil,
		},
		"on-its-way": {
			// From 200 towards 150: at 180, its limit, by 20, and below 180 − 30 by 50.
			State{Initial: 200, IsSet: true, Now: 150, SetFrom: 0, Drift: minute},
			[]Stay{{Lo: 140, Hi: 180, Continues: -1}, {Lo: 100, Hi: 120, Continues: -1}},
			[]visit{{0, 20, 40}, {1, 100, 110}},
			// Set from 40 on, when the first is out; from 180, the worst, it takes 60.
			[]window{{from: 40, to: 40, value: 110, stay: 1}},
		},
	} {
		c.state.Dial = func(_, lo, hi float64) float64 { return (lo + hi) / 2 }
		pl := &placer{p: &Problem{States: []State{c.state}, Stays: c.stays}, visits: [][]visit{c.visits}}
		var got []window
		pl.eachSetting(0, func(_ *group, w window) bool {
			got = append(got, w)
			return true
		})
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: settings %+v, want %+v", name, got, c.want)
		}
	}
}
