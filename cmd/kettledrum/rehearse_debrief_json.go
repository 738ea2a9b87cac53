package main

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/debrief"
)

// debriefJSON looks back at a rehearsal.
type debriefJSON struct {
	From     time.Time    `json:"from"` // what lies before is not looked at
	Courses  []cameJSON   `json:"courses"`
	Tightest *tightJSON   `json:"tightest"`
	HotWait  *hotWaitJSON `json:"hot_wait"`
	Idle     []idleJSON   `json:"idle"`
	Tried    []triedJSON  `json:"tried"` // none where nothing was late
}

// cameJSON is how a course came to the table.
type cameJSON struct {
	Course     string      `json:"course"`
	Asked      time.Time   `json:"asked"`
	Served     time.Time   `json:"served"`
	HeldMin    int         `json:"held_min"`
	LateMin    int         `json:"late_min"`
	PlannedMin int         `json:"planned_late_min"`
	Why        []causeJSON `json:"why"`
}

type causeJSON struct {
	Step       string `json:"step"`
	PlannedMin int    `json:"planned_min"`
	TookMin    int    `json:"took_min"`
	StillMin   int    `json:"still_min"`
}

type tightJSON struct {
	From     time.Time `json:"from"`
	To       time.Time `json:"to"`
	WorkMin  int       `json:"work_min"`
	HandsMin int       `json:"hands_min"`
	Calls    []string  `json:"calls"`
}

type hotWaitJSON struct {
	Step    string    `json:"step"`
	From    time.Time `json:"from"`
	To      time.Time `json:"to"`
	Minutes int       `json:"minutes"`
	Vessel  *string   `json:"vessel"`
	TakenBy *string   `json:"taken_by"` // null: the table
}

type idleJSON struct {
	Cook        string     `json:"cook"`
	TotalMin    int        `json:"total_min"`
	LongestFrom *time.Time `json:"longest_from"`
	LongestTo   *time.Time `json:"longest_to"`
}

// triedJSON is an idea that the dinner was played again with; the first changes nothing.
type triedJSON struct {
	Do      string    `json:"do"`
	Start   time.Time `json:"start"`
	LateMin []*int    `json:"late_min"` // of each course; null of one not served
	// Unserved: a course is not served at all.
	Unserved bool `json:"unserved"`
	Broken   int  `json:"broken"`
	Helps    bool `json:"helps"`
}

func viewDebrief(d debrief.Dinner, b debrief.Debrief, tried []debrief.Tried, in func(time.Time) time.Time) debriefJSON {
	p := d.Plan
	v := debriefJSON{From: in(d.From), Courses: []cameJSON{}, Idle: []idleJSON{}, Tried: []triedJSON{}}
	for c, k := range b.Courses {
		came := cameJSON{p.Courses[c].Name, in(k.Asked), in(k.Served), plan.Minutes(k.Held), plan.Minutes(k.Late), plan.Minutes(k.Planned), []causeJSON{}}
		for _, w := range k.Why {
			came.Why = append(came.Why, causeJSON{p.Steps[w.Step].ID, plan.Minutes(w.Planned), plan.Minutes(w.Took), plan.Minutes(w.Still)})
		}
		v.Courses = append(v.Courses, came)
	}
	if t := b.Tight; t != nil {
		v.Tightest = &tightJSON{in(t.From), in(t.To), plan.Minutes(t.Work), plan.Minutes(t.Hands), []string{}}
		for _, i := range t.Calls {
			v.Tightest.Calls = append(v.Tightest.Calls, p.Steps[i].ID)
		}
	}
	if w := b.Waited; w != nil {
		v.HotWait = &hotWaitJSON{Step: p.Steps[w.Step].ID, From: in(w.From), To: in(w.To), Minutes: plan.Minutes(w.To.Sub(w.From)), TakenBy: stepID(p, w.By)}
		if w.Vessel >= 0 {
			v.HotWait.Vessel = &p.Kitchen.Tools[w.Vessel].Name
		}
	}
	for k, x := range b.Idle {
		i := idleJSON{Cook: p.Kitchen.Cooks[k].Name, TotalMin: plan.Minutes(x.Total)}
		if x.Longest.From.Before(x.Longest.To) {
			i.LongestFrom, i.LongestTo = orNull(in(x.Longest.From)), orNull(in(x.Longest.To))
		}
		v.Idle = append(v.Idle, i)
	}
	helps := debrief.Helps(tried)
	for _, t := range tried {
		x := triedJSON{Do: t.Do, Start: in(t.Start), LateMin: []*int{}, Unserved: len(t.Unserved) > 0, Broken: t.Broken,
			Helps: slices.ContainsFunc(helps, func(h debrief.Tried) bool { return h.Do == t.Do })}
		for c, l := range t.Late {
			late := new(plan.Minutes(l))
			if slices.Contains(t.Unserved, c) {
				late = nil // how long it was waited for says nothing
			}
			x.LateMin = append(x.LateMin, late)
		}
		v.Tried = append(v.Tried, x)
	}
	return v
}
