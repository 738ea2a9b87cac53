package debrief

import (
	"slices"
	"time"

	"example.org/kettledrum/plan/kept"
)

// Waited is hot food that stood, outside any oven, until it was taken.
type Waited struct {
	Step     int // what made it
	From, To time.Time
	// By is the step that took it, the last of several; -1: it went to the table.
	By int
	// Vessel is the tool that it stood in, -1 where the plan names none.
	Vessel int
}

// waited is the longest of them, of equals the first of the plan; at least a minute.
func (d *Dinner) waited() *Waited {
	var best *Waited
	places, followers := kept.Of(d.Plan, d.Was), d.Plan.Followers()
	for i, hot := range kept.Hot(d.Plan) {
		goesOn := slices.ContainsFunc(followers[i], func(j int) bool { return d.Plan.Steps[j].AtOnce })
		if !hot || !d.there(i) || goesOn { // what rests at once does not wait
			continue
		}
		w := Waited{Step: i, From: d.Was.Slots[i].End, To: places.Taken(i), By: -1, Vessel: -1}
		for _, j := range followers[i] {
			if d.Was.Slots[j].Start.Equal(w.To) {
				w.By = j
			}
		}
		if v := d.Plan.Steps[i].Vessel; v != nil {
			w.Vessel = v.Tool
		}
		if long := w.To.Sub(w.From); long >= time.Minute && (best == nil || long > best.To.Sub(best.From)) {
			best = &w
		}
	}
	return best
}
