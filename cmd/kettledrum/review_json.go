package main

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
)

// The JSON that `review --json` prints, by the same rules as that of `plan --json`: see
// planJSON. Lengths are minutes, to a tenth. The JSON Schema of it is review.schema.json.
type reviewJSON struct {
	Title  string      `json:"title"`
	Plan   string      `json:"plan"` // the file
	Runs   []runJSON   `json:"runs"` // by time
	Habits []habitJSON `json:"habits"`
}

type runJSON struct {
	Run     string             `json:"run"` // the name of its folder
	Table   time.Time          `json:"table"`
	Over    bool               `json:"over"`
	Courses []courseReviewJSON `json:"courses"`
	Steps   []stepReviewJSON   `json:"steps"`
	Notes   []noteJSON         `json:"notes"` // of no step
}

type courseReviewJSON struct {
	Name    string     `json:"name"`
	Asked   time.Time  `json:"asked"`
	Planned time.Time  `json:"planned"`
	Served  *time.Time `json:"served"` // null: never
	Told    bool       `json:"told"`
	LateMin int        `json:"late_min"`
	Missed  bool       `json:"missed"`
}

type stepReviewJSON struct {
	ID           string         `json:"id"`
	Do           string         `json:"do"`
	Planned      string         `json:"planned"` // as the plan writes it; of a wait the least
	PlannedMin   float64        `json:"planned_min"`
	PlannedStart *time.Time     `json:"planned_start"`
	Start        *time.Time     `json:"start"`
	End          *time.Time     `json:"end"`
	TookMin      *float64       `json:"took_min"` // null: not judged
	StoodMin     float64        `json:"stood_min"`
	Why          *review.Reason `json:"why"` // null: judged
	Notes        []noteJSON     `json:"notes"`
}

type noteJSON struct {
	At   time.Time `json:"at"`
	Kind run.Kind  `json:"kind"`
	Text string    `json:"text"`
}

type habitJSON struct {
	Step     string    `json:"step"`
	Is       string    `json:"is"`       // in the plan of the last run
	TookMin  []float64 `json:"took_min"` // by time
	Tends    string    `json:"tends"`    // "long", "short", ""
	Proposed string    `json:"proposed"`
	Changes  bool      `json:"changes"`
}

// viewReview turns what the chosen runs tell into the printed shape.
func viewReview(c *chosen, b *lookedBack) reviewJSON {
	v := reviewJSON{Title: c.last().state.Base.Title, Plan: c.last().was.Name, Runs: []runJSON{}, Habits: []habitJSON{}}
	for n, ev := range b.shown {
		v.Runs = append(v.Runs, viewRun(&c.shown[n], ev))
	}
	for _, h := range b.habits {
		j := habitJSON{Step: h.Step, Is: planfile.WriteLength(h.Is), TookMin: []float64{}, Proposed: planfile.WriteLength(h.Proposed), Changes: h.Changes(),
			Tends: map[int]string{1: "long", -1: "short"}[h.Tends]}
		for _, t := range h.Took {
			j.TookMin = append(j.TookMin, minutes(t))
		}
		v.Habits = append(v.Habits, j)
	}
	return v
}

func viewRun(x *pastRun, ev *review.Evening) runJSON {
	in := inZone(ev.Plan)
	v := runJSON{Run: x.name(), Table: in(ev.Table), Over: x.over, Courses: []courseReviewJSON{}, Steps: []stepReviewJSON{}, Notes: viewNotes(ev.Notes, in)}
	for i, c := range ev.Courses {
		v.Courses = append(v.Courses, courseReviewJSON{ev.Plan.Courses[i].Name, in(c.Asked), in(c.Planned), orNull(in(c.Served)), c.Told, plan.Minutes(c.Late.Truncate(time.Minute)), c.Missed})
	}
	for i := range ev.Steps {
		s, step := &ev.Steps[i], &ev.Plan.Steps[i]
		j := stepReviewJSON{ID: step.ID, Do: step.Do, Planned: planfile.WriteLength(step.Length), PlannedMin: minutes(s.Planned),
			PlannedStart: orNull(in(s.PlannedStart)), Start: orNull(in(s.Start)), End: orNull(in(s.End)), StoodMin: minutes(s.Stood), Notes: viewNotes(s.Notes, in)}
		if step.Length.Elastic {
			j.Planned = brief(s.Planned)
		}
		if s.Why == review.Judged {
			took := minutes(s.Took)
			j.TookMin = &took
		} else {
			j.Why = &s.Why
		}
		v.Steps = append(v.Steps, j)
	}
	return v
}

func viewNotes(notes []review.Note, in func(time.Time) time.Time) []noteJSON {
	out := []noteJSON{}
	for _, n := range notes {
		out = append(out, noteJSON{in(n.At), n.Kind, n.Text})
	}
	return out
}

// minutes is a length in minutes, to a tenth.
func minutes(d time.Duration) float64 { return d.Round(6 * time.Second).Minutes() }
