package safety

import "example.org/kettledrum/plan"

// Stages returns where the food of every step stands; empty for chores.
func Stages(p *plan.Plan, t *plan.Timetable) []string {
	var out []string
	for _, b := range trace(p, t).points {
		out = append(out, string(b.stage))
	}
	return out
}
