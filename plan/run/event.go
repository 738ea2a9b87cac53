package run

import (
	"time"

	"example.org/kettledrum/plan"
)

// Kind names what happened.
type Kind string

// What can happen in a run.
const (
	Opened       Kind = "opened"       // Plan
	Adopted      Kind = "adopted"      // Timetable, Why, Cause
	Started      Kind = "started"      // Step
	Finished     Kind = "finished"     // Step; implies started
	Prolonged    Kind = "prolonged"    // Step, By: how much longer it takes
	Paused       Kind = "paused"       // Step
	Resumed      Kind = "resumed"      // Step
	SkippedStep  Kind = "skipped"      // Step
	Added        Kind = "added"        // Text, By, perhaps Cook: a step that was not in the plan, and who does it
	Reassigned   Kind = "reassigned"   // Step, Cook
	Acknowledged Kind = "acknowledged" // Cue; Step and Text: what the cook was told and knows
	Reading      Kind = "reading"      // Step, Temp: inside the food
	OvenTurned   Kind = "oven_set"     // Oven, Temp (nil: off), Step: what it is for
	Served       Kind = "served"       // Course
	Held         Kind = "held"         // Course, By: how much longer; without, until released
	Released     Kind = "released"     // Course: held no longer
	TimerSet     Kind = "timer"        // Text, By
	Away         Kind = "away"         // Cook, By: for how long; without, until back
	Back         Kind = "back"         // Cook
	Failed       Kind = "failed"       // Oven or Burner; Step: what stood there
	Works        Kind = "works"        // Oven or Burner: again
	Put          Kind = "put"          // Step; Oven, Burner or Tool: where it is from now on
	Redone       Kind = "redone"       // Step: it and what its dish made of it begin again
	Dropped      Kind = "dropped"      // Dish: what is not done of it is left out
	RemedyTaken  Kind = "remedy"       // Text, Changes
	Noted        Kind = "note"         // Text, Step
	PlanChanged  Kind = "plan_changed" // Plan
	Undone       Kind = "undone"       // Undoes
)

// Event is one fact of a run. The format is that of the journal and stays: a
// field that a kind does not use is left out.
type Event struct {
	// Seq is the event's number in the journal, from 1; zero before it is in.
	Seq  uint64 `json:"-"`
	Kind Kind   `json:"kind"`
	// At is when it happened, Noted when it was told.
	At    time.Time `json:"at"`
	Noted time.Time `json:"noted"`

	Step   string        `json:"step,omitempty"`   // full reference
	Course string        `json:"course,omitempty"` // name
	Cook   string        `json:"cook,omitempty"`   // name
	Oven   string        `json:"oven,omitempty"`   // name
	By     time.Duration `json:"by,omitempty"`     // nanoseconds
	Temp   *float64      `json:"temp,omitempty"`   // degrees Celsius
	Text   string        `json:"text,omitempty"`
	Cue    string        `json:"cue,omitempty"`    // Cue.ID
	Dish   string        `json:"dish,omitempty"`   // its ID
	Burner string        `json:"burner,omitempty"` // size: "large", "small"
	Tool   string        `json:"tool,omitempty"`   // name
	Undoes uint64        `json:"undoes,omitempty"`

	// Of Adopted: the timetable, what led to it in at most three lines, and the
	// number of the event that caused it (0: none). Undoing the cause undoes it.
	Timetable *plan.Timetable `json:"timetable,omitempty"`
	Why       []string        `json:"why,omitempty"`
	Cause     uint64          `json:"cause,omitempty"`

	// Of RemedyTaken: what the plan says otherwise from now on.
	Changes []plan.Change `json:"changes,omitempty"`

	// Of Opened and PlanChanged.
	Plan *PlanCopy `json:"plan,omitempty"`
}

// PlanCopy is the plan as it was when the run was opened: the run goes on with
// it whatever becomes of the file.
type PlanCopy struct {
	Name     string    `json:"name"`   // of the file, for messages
	Source   string    `json:"source"` // the text of the file
	Table    time.Time `json:"table"`  // when the dinner is, after --serve
	Zone     string    `json:"zone"`   // its name; of one that has none its distance from UTC, "UTC+02:00"
	Rehearse bool      `json:"rehearse,omitempty"`
	Cautious bool      `json:"cautious,omitempty"` // planned with Plan.Cautious
	// Files are the texts of the files that the plan names, by that name.
	Files map[string]string `json:"files,omitempty"`
}
