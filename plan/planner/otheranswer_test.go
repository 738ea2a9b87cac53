//go:build othersolver

package planner_test

import (
	"fmt"
	"math"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// otherAnswer is what the model puts out. Numbers count from 1.
type otherAnswer struct {
	Lateness, Waiting       int
	Serve, Start, End, Cook []int
	OnLarge                 []int `json:"on_large"`
	Toucher                 []int
	Block                   []int
	SetAt                   []int `json:"set_at"`
	SetBy                   []int `json:"set_by"`
	SetFor                  []int `json:"set_for"`
}

// timetable turns an answer into a timetable.
func (d *otherDinner) timetable(a *otherAnswer) *plan.Timetable {
	at := func(m int) time.Time { return d.base.Add(time.Duration(m) * time.Minute) }
	tt := &plan.Timetable{}
	for i, s := range d.p.Steps {
		slot := plan.Slot{Start: at(a.Start[i]), End: at(a.End[i]), Cook: -1, Oven: -1}
		if s.Hands.Working() {
			slot.Cook = a.Cook[i] - 1
		}
		if s.Oven != nil {
			slot.Oven = 0
		}
		tt.Slots = append(tt.Slots, slot)
	}
	for k, i := range d.pots {
		tt.Slots[i].Burner = []plan.BurnerSize{plan.Small, plan.Large}[a.OnLarge[k]]
	}
	for _, m := range a.Serve {
		tt.Serves = append(tt.Serves, at(m))
	}
	for k, touch := range d.touches {
		tt.Touches = append(tt.Touches, plan.Touch{What: touch.what, Step: touch.step, Oven: -1, At: at(a.Start[touch.step] + touch.after), Cook: a.Toucher[k] - 1})
	}
	d.addSets(tt, a)
	return tt
}

// addSets adds the settings of the oven, one for each block of bakes.
func (d *otherDinner) addSets(tt *plan.Timetable, a *otherAnswer) {
	var blocks [][]otherBake
	for k, b := range d.bakes {
		for len(blocks) < a.Block[k] {
			blocks = append(blocks, nil)
		}
		blocks[a.Block[k]-1] = append(blocks[a.Block[k]-1], b)
	}
	moment := func(m float64) time.Time { return d.base.Add(time.Duration(m * float64(time.Minute))) }
	for k, block := range blocks {
		var at, temp float64 // when the dial is turned, in minutes, and what the oven is at then
		if k == 0 {
			temp = d.heat.room
			at, _ = d.turn(a, []otherBake{{step: -1, lo: temp, hi: temp}}, block, a.SetAt[k])
		} else {
			at, temp = d.turn(a, blocks[k-1], block, a.SetAt[k])
			tt.Sets[k-1].To = plan.Celsius(temp)
		}
		b := d.bakes[a.SetFor[k]-1]
		reach := 0.0
		switch {
		case temp < b.lo:
			reach = d.heat.between(temp, b.lo)
		case temp > b.hi:
			reach = d.heat.between(temp, b.hi)
		}
		common := block[0].lo // stays where nothing comes after
		for _, b := range block {
			common = max(common, b.lo)
		}
		tt.Sets = append(tt.Sets, plan.OvenSet{Oven: 0, At: moment(at), To: plan.Celsius(common), For: b.step, Ready: moment(math.Ceil(at + reach))})
		tt.Touches = append(tt.Touches, plan.Touch{What: plan.TouchSet, Step: b.step, Oven: 0, At: moment(float64(a.SetAt[k])), Cook: a.SetBy[k] - 1})
	}
}

// turn finds the moment u within a minute at which the dial is turned between one
// block of bakes and the next, and where it stood before, v. With P the time on the
// way to a temperature (potential), each b of the first must not be past its range
// at its end, and each e of the second be in its own at its start:
//
//	end(b) ≤ u + P(far end of b) − P(v)    start(e) ≥ u + P(near end of e) − P(v)
//
// so u − P(v) lies between two bounds, v in what the first block has in common. Of
// what is left the middle is taken.
func (d *otherDinner) turn(a *otherAnswer, from, to []otherBake, minute int) (u, v float64) {
	up := to[0].lo > from[0].hi
	near, far := func(b otherBake) float64 { return b.hi }, func(b otherBake) float64 { return b.lo }
	if up {
		near, far = far, near
	}
	lo, hi := math.Inf(-1), math.Inf(1)      // of P(v)
	least, most := math.Inf(-1), math.Inf(1) // of u − P(v)
	for _, b := range from {
		lo, hi = max(lo, d.heat.potential(up, near(b))), min(hi, d.heat.potential(up, far(b)))
		if b.step >= 0 {
			least = max(least, float64(a.End[b.step])-d.heat.potential(up, far(b)))
		}
	}
	for _, e := range to {
		most = min(most, float64(a.Start[e.step])-d.heat.potential(up, near(e)))
	}
	first, last := float64(minute), float64(minute)+0.999
	pv := (max(lo, first-most) + min(hi, last-least)) / 2
	return (max(first, least+pv) + min(last, most+pv)) / 2, d.heat.temperature(up, pv)
}

// show writes a timetable out, for the message of a failed test.
func (d *otherDinner) show(tt *plan.Timetable) string {
	var b strings.Builder
	for i, s := range tt.Slots {
		fmt.Fprintf(&b, "%s–%s %s, cook %d, burner %s\n", s.Start.Format("15:04"), s.End.Format("15:04"), d.p.Steps[i].ID, s.Cook, s.Burner)
	}
	for _, s := range tt.Sets {
		fmt.Fprintf(&b, "%s oven to %.1f, off %v, for %d\n", s.At.Format("15:04:05"), s.To, s.Off, s.For)
	}
	for _, x := range tt.Touches {
		fmt.Fprintf(&b, "%s %s %s, cook %d\n", x.At.Format("15:04"), x.What, d.p.Steps[x.Step].ID, x.Cook)
	}
	for c, at := range tt.Serves {
		fmt.Fprintf(&b, "%s %s\n", at.Format("15:04"), d.p.Courses[c].Name)
	}
	return b.String()
}
