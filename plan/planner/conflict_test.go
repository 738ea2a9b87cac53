package planner

import (
	"context"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/planfile"
)

// An oven conflict is told with the days of its hours, and not at all where the
// hour as late as may be is one at which nobody would cook.
func TestConflicts(t *testing.T) {
	t.Parallel()
	const head = `kettledrum: 1
table: 2026-10-17 19:00
zone: UTC
kitchen: {cooks: [{name: Ines, free: [Fri 18:00-21:00, Sat 16:00-23:00]}]}
dishes:
`
	for _, c := range []struct {
		name, dishes string
		want         []string // in the text of the only conflict; none where nil
	}{
		{
			name: "one-evening",
			dishes: `
  - {name: Beets, steps: [{do: Roast, takes: 30m, oven: 300F, keeps: 2h}]}
  - {name: Pie, steps: [{do: Bake, takes: 40m, oven: 450F}]}`,
			want: []string{"in it 18:30–19:00 and 18:20–19:00", "; the timetable has 17:"},
		},
		{
			name: "the-evening-before", // on Saturday the roast leaves no time for the beets
			dishes: `
  - {name: Beets, steps: [{do: Roast, takes: 1h, oven: 300F, keeps: 1d in fridge}]}
  - {name: Roast, steps: [{do: Roast, takes: 2h30m, oven: 450F}]}`,
			want: []string{"in it 18:00–19:00 and 16:30–19:00", "; the timetable has Fri 20:00–21:00, then 16:30–19:00"},
		},
		{
			name: "kept-warm", // the pie is at 450 °F until it is served, and fritters wait at 170
			dishes: `
  - {name: Fritters, steps: [{do: Fry, takes: 20m, burner: large, hands: tied, keeps: 1h in oven at 170-200F}]}
  - {name: Pie, steps: [{do: Bake, takes: 40m, oven: 450F}]}`,
			want: []string{
				"Fritters: Fry, kept warm (170–200 °F)", "Pie: Bake (450 °F)", "and kept warm for as long as they may be, they are in it ",
				"18:00–19:00", "18:20–19:00", "; by the timetable “Fritters: Fry” need not be kept warm",
			},
		},
		{
			name: "kept-warm-before-a-bake", // the steaks have the cook to the end, the fritters wait
			dishes: `
  - {name: Fritters, course: Starter, steps: [{do: Fry, takes: 20m, burner: large, hands: tied, keeps: 1h in oven at 170-200F}]}
  - {name: Steaks, course: Starter, steps: [{do: Fry, takes: 20m, burner: large, hands: tied, keeps: 2m}]}
  - {name: Pie, course: Main, steps: [{do: Bake, takes: 20m, oven: 450F}]}
courses: [{name: Starter, seated: 5m}, {name: Main, serve: 30m}]`,
			want: []string{"18:00–19:00", "19:10–19:30", "; the timetable has 18:40–19:00, then 19:"},
		},
		{
			name: "kept-warm-where-it-was-baked", // it rides the change, and suits the pie
			dishes: `
  - {name: Rolls, steps: [{do: Bake, takes: 20m, oven: 450F, keeps: 30m in oven at 170-400F}]}
  - {name: Pie, steps: [{do: Bake, takes: 40m, oven: 390F, keeps: 30m}]}`,
			want: []string{"Rolls: Bake (450 °F)", "Pie: Bake (390 °F)"},
		},
		{
			name: "by-night", // as late as may be is until seven in the morning
			dishes: `
  - {name: Beets, steps: [{do: Roast, takes: 1h, oven: 300F}, {do: Pickle, waits: 12h to 2d in fridge}]}
  - {name: Cake, steps: [{do: Bake, takes: 40m, oven: 450F}, {do: Ripen, waits: 12h to 2d}]}`,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, problems := planfile.Decode([]byte(head+c.dishes[1:]), planfile.Options{Local: time.UTC})
			if p == nil {
				t.Fatal(problems)
			}
			tt := Make(context.Background(), p)
			got := Conflicts(p, tt)
			if c.want == nil {
				if len(got) > 0 {
					t.Errorf("told of a conflict at night: %s", got[0].Text)
				}
				return
			}
			if len(got) != 1 || !got[0].Solved {
				t.Fatalf("got %+v, want one that is solved\n%s", got, dump(p, tt))
			}
			for _, w := range c.want {
				if !strings.Contains(got[0].Text, w) {
					t.Errorf("got  %s\nwithout  %s", got[0].Text, w)
				}
			}
		})
	}
}
