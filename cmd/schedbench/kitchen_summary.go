package main

import (
	"fmt"
	"io"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
)

// kitchenSummary gathers what is said after all kitchens.
type kitchenSummary struct {
	n             int
	status        map[plan.Status]int
	columns       []column
	heap, alloc   float64 // the greatest
	conflictFacts int     // the greatest
}

// column is one time of the rows that have it.
type column struct {
	name   string
	values []float64
}

// add takes in one kitchen.
func (s *kitchenSummary) add(r *kitchenRow) {
	if s.status == nil {
		s.status = map[plan.Status]int{}
	}
	s.n++
	s.status[r.Status]++
	s.heap, s.alloc = max(s.heap, r.MBHeap), max(s.alloc, r.MBAlloc)
	if r.ConflictFacts != nil {
		s.conflictFacts = max(s.conflictFacts, *r.ConflictFacts)
	}
	s.time("plan", &r.MsPlan)
	s.time("first plan", r.MsFirst)
	s.time("first whole plan", r.MsWhole)
	for k, proved := range r.MsProved {
		s.time(planner.Objectives[k]+" proved", proved)
	}
	s.time("re-plan", r.MsReplan)
	s.time("re-plan first", r.MsReplanFirst)
	s.time("re-plan closed", r.MsReplanClosed)
	s.time("conflict set", r.MsConflict)
}

func (s *kitchenSummary) time(name string, v *float64) {
	if v == nil {
		return
	}
	for i := range s.columns {
		if s.columns[i].name == name {
			s.columns[i].values = append(s.columns[i].values, *v)
			return
		}
	}
	s.columns = append(s.columns, column{name, []float64{*v}})
}

func (s *kitchenSummary) print(w io.Writer, steps int) error {
	text := fmt.Sprintf("%d kitchens of %d steps: %d whole, %d late, %d broken\n", s.n, steps, s.status[plan.Whole], s.status[plan.Late], s.status[plan.Broken])
	for _, c := range s.columns {
		text += fmt.Sprintf("  %s, ms (of %d): median %.1f, p95 %.1f, max %.1f\n", c.name, len(c.values), percentile(c.values, 50), percentile(c.values, 95), percentile(c.values, 100))
	}
	if s.conflictFacts > 0 {
		text += fmt.Sprintf("  largest conflict set: %d facts\n", s.conflictFacts)
	}
	text += fmt.Sprintf("  memory, MB, greatest: heap in use %.1f, allocated in all %.1f\n", s.heap, s.alloc)
	_, err := io.WriteString(w, text)
	return err
}

func kitchenHeading(out io.Writer) error {
	_, err := fmt.Fprintf(out, "%8s %6s %5s %-7s %5s %6s %9s %9s %9s %9s %9s %9s %8s\n", "seed", "steps", "tight", "status", "late", "broken",
		"ms_first", "ms_late", "ms_all", "ms_plan", "re_first", "re_all", "mb_heap")
	return err
}

func kitchenText(out io.Writer, r kitchenRow) error {
	_, err := fmt.Fprintf(out, "%8d %6d %5d %-7s %5d %6d %9s %9s %9s %9.1f %9s %9s %8.1f\n", r.Seed, r.Steps, r.Tight, r.Status, r.Late, r.Broken,
		or(r.MsFirst, "%.1f"), or(r.MsProved[0], "%.1f"), or(r.MsProved[len(r.MsProved)-1], "%.1f"), r.MsPlan,
		or(r.MsReplanFirst, "%.1f"), or(r.MsReplanClosed, "%.1f"), r.MBHeap)
	return err
}
