package plan

import (
	"time"
)

// Plan is one dinner as the cook wrote it down, with every default filled in
// and every reference resolved.
type Plan struct {
	Title  string
	Guests int
	// GuestsNote, Avoid (allergens) and Rules ("us" or "uk") are for the cautions.
	GuestsNote string
	Avoid      []string
	Rules      string
	// Table is when the first course is asked to be on the table, in the plan's
	// time zone (Table.Location()).
	Table   time.Time
	Units   Units
	Kitchen Kitchen
	Courses []Course
	Dishes  []Dish
	// Steps are all steps of all dishes, in the order of the file.
	Steps []Step
}

// Course is what comes to the table together.
type Course struct {
	Name string
	// Serve is when the course is asked to be on the table, after Plan.Table.
	Serve time.Duration
	// Seated is how long the guests sit with it; the next course comes no earlier.
	Seated time.Duration
	// LateOK is how late the course may be.
	LateOK time.Duration
	// SlipsAway lets a seated cook leave the table for touches and steps no
	// longer than this, once in SlipEvery; zero: they stay.
	SlipsAway time.Duration
	Pos       Pos
}

// Dish is one thing to eat: a course and the steps that make it.
type Dish struct {
	Name   string
	ID     string // lower case with hyphens
	Course int
	Steps  []int // indices into Plan.Steps, in the order of the file
	// Chore is set for what is no dish: its one step, to be done for the course.
	// Name and ID are empty then.
	Chore *Chore
	// Optional: a remedy may drop all of it.
	Optional bool
	// Note is longer text, shown when the dish is opened.
	Note string
	// Makes is how many the recipe serves, Ingredients what it takes, Food the id of
	// what it is in the table of safe temperatures. 0 and empty: not said.
	Makes       int
	Ingredients []Ingredient
	Food        string
	Pos         Pos
}

// Chore says when a step of no dish may be done: before its course is served.
type Chore struct {
	// After is a course from whose planned serve on it may be done, -1 for none.
	After int
	// Ahead is how early before the course's asked serve it may start; without
	// HasAhead from the beginning of the cook-day on.
	Ahead    time.Duration
	HasAhead bool
}

// SlipEvery is the least time between two absences of a seated cook, from start
// to start.
const SlipEvery = 10 * time.Minute

// Defaults of a course and of a step.
const (
	DefaultSeated  = 20 * time.Minute
	DefaultLateOK  = 20 * time.Minute
	KeepAfterHeat  = 10 * time.Minute // after oven or burner
	KeepOtherwise  = 2 * time.Hour    // the two-hour rule
	KeepLimitAtMax = 2 * time.Hour    // no assumed limit of a liking is longer, unless the liking is
)

// Asked returns when course c is asked to be on the table.
func (p *Plan) Asked(c int) time.Time { return p.Table.Add(p.Courses[c].Serve) }

// CookDay returns midnight at the start of the dinner's day, in the plan's zone.
func (p *Plan) CookDay() time.Time {
	y, m, d := p.Table.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, p.Table.Location())
}

// StepIndex returns the index of the step whose full reference is id
// ("dish/step"), or -1.
func (p *Plan) StepIndex(id string) int {
	for i := range p.Steps {
		if p.Steps[i].ID == id {
			return i
		}
	}
	return -1
}

// CourseOf returns the index of the course that step i belongs to.
func (p *Plan) CourseOf(i int) int { return p.Dishes[p.Steps[i].Dish].Course }

// Followers returns, for every step, the steps that have it in their After, in
// the order of the file.
func (p *Plan) Followers() [][]int {
	out := make([][]int, len(p.Steps))
	for j := range p.Steps {
		for _, l := range p.Steps[j].After {
			out[l.Step] = append(out[l.Step], j)
		}
	}
	return out
}

// Minutes returns d in whole minutes, rounded up: the unit in which a
// timetable moves.
func Minutes(d time.Duration) int {
	return int((d + time.Minute - 1) / time.Minute)
}
