package solve

import "testing"

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
