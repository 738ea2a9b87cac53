// Package plantest builds plans as values for tests, in as few words as a plan
// file takes, with the defaults of a plan file where they matter to a timetable.
package plantest

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// Builder collects a plan. Its methods panic on a name that is not there: a
// test that is written wrongly should stop at once.
type Builder struct {
	Plan plan.Plan
}

// New starts a plan for "2026-10-17 19:00" (UTC): a kitchen of 20 °C with one
// oven of two shelves that takes 12 minutes to 180 °C and 14 from 220 down to
// 180, two large and two small burners, and nobody in it.
func New(table string) *Builder {
	b := &Builder{}
	t, err := time.Parse("2006-01-02 15:04", table)
	if err != nil {
		panic(err)
	}
	b.Plan = plan.Plan{
		Title: "Supper", Guests: 4, Table: t, Units: plan.Metric,
		Kitchen: plan.Kitchen{
			Ovens: []plan.Oven{{
				Name: "oven", Shelves: plan.DefaultShelves,
				Preheat: plan.Ramp{Takes: 12 * time.Minute, To: 180},
				Cools:   plan.Ramp{Takes: 14 * time.Minute, From: 220, To: 180},
			}},
			Burners: plan.Burners{Large: plan.DefaultLarge, Small: plan.DefaultSmall},
			Minds:   plan.DefaultMinds,
			Room:    20,
		},
	}
	return b
}

// At returns a time of the dinner's day, "18:05" or "18:05:30", or of so many days
// before it, "-2d 18:05".
func (b *Builder) At(clock string) time.Time {
	days := 0
	if before, rest, ok := strings.Cut(clock, "d "); ok {
		n, err := strconv.Atoi(before)
		if err != nil {
			panic(err)
		}
		days, clock = n, rest
	}
	layout := "15:04"
	if strings.Count(clock, ":") == 2 {
		layout = "15:04:05"
	}
	t, err := time.Parse(layout, clock)
	if err != nil {
		panic(err)
	}
	day := b.Plan.CookDay()
	return time.Date(day.Year(), day.Month(), day.Day()+days, t.Hour(), t.Minute(), t.Second(), 0, day.Location())
}

// Cook adds a cook who is free in windows like "15:00-23:00" of the dinner's day, or
// "-2d 18:00-21:00" of an earlier one.
func (b *Builder) Cook(name string, windows ...string) int {
	c := plan.Cook{Name: name}
	for _, w := range windows {
		day, hours := "", w
		if before, rest, ok := strings.Cut(w, "d "); ok {
			day, hours = before+"d ", rest
		}
		from, to, _ := strings.Cut(hours, "-")
		c.Free = append(c.Free, plan.Window{From: b.At(day + from), To: b.At(day + to)})
	}
	b.Plan.Kitchen.Cooks = append(b.Plan.Kitchen.Cooks, c)
	return len(b.Plan.Kitchen.Cooks) - 1
}

// Tool adds a tool to the kitchen.
func (b *Builder) Tool(name string, count int) int {
	b.Plan.Kitchen.Tools = append(b.Plan.Kitchen.Tools, plan.Tool{Name: name, Count: count, Listed: true})
	return len(b.Plan.Kitchen.Tools) - 1
}

// Wash says how many minutes a piece of a tool is washed between two dishes.
func (b *Builder) Wash(tool, minutes int) {
	b.Plan.Kitchen.Tools[tool].Wash = time.Duration(minutes) * time.Minute
}

// Cold counts the places of a cold place.
func (b *Builder) Cold(name string, places int) {
	b.Plan.Kitchen.Cold = append(b.Plan.Kitchen.Cold, plan.Cold{Name: name, Places: places})
}

// Sits has a cook at table with each course.
func (b *Builder) Sits(cook int) { b.Plan.Kitchen.Cooks[cook].Sits = true }

// Oven adds an oven like the first, with another name.
func (b *Builder) Oven(name string) int {
	o := b.Plan.Kitchen.Ovens[0]
	o.Name = name
	b.Plan.Kitchen.Ovens = append(b.Plan.Kitchen.Ovens, o)
	return len(b.Plan.Kitchen.Ovens) - 1
}

// Course adds a course.
func (b *Builder) Course(name string, serve, seated, lateOK time.Duration) int {
	b.Plan.Courses = append(b.Plan.Courses, plan.Course{Name: name, Serve: serve, Seated: seated, LateOK: lateOK})
	return len(b.Plan.Courses) - 1
}

// Dish adds a dish of a course. Steps added next belong to it.
func (b *Builder) Dish(name string, course int) int {
	id := strings.ReplaceAll(strings.ToLower(name), " ", "-")
	b.Plan.Dishes = append(b.Plan.Dishes, plan.Dish{Name: name, ID: id, Course: course})
	return len(b.Plan.Dishes) - 1
}

// Chore adds a step of no dish, for a course. Its id is "do".
func (b *Builder) Chore(do string, course int, chore plan.Chore, length plan.Length, options ...Option) int {
	b.Plan.Dishes = append(b.Plan.Dishes, plan.Dish{Course: course, Chore: &chore})
	i := b.Step(do, length, options...)
	b.Plan.Steps[i].ID = strings.TrimPrefix(b.Plan.Steps[i].ID, "/")
	return i
}

// Option says one thing about a step.
type Option func(b *Builder, s *plan.Step)

// Step adds a step to the last dish: busy, and after the step above it, unless
// an option says otherwise. Its id is "dish/do", its keep nothing but freely.
func (b *Builder) Step(do string, length plan.Length, options ...Option) int {
	d := &b.Plan.Dishes[len(b.Plan.Dishes)-1]
	s := plan.Step{
		ID: d.ID + "/" + strings.ReplaceAll(strings.ToLower(do), " ", "-"), Do: do,
		Dish: len(b.Plan.Dishes) - 1, Length: length, Hands: plan.Busy, By: -1,
	}
	if n := len(d.Steps); n > 0 {
		s.After = []plan.Link{{Step: d.Steps[n-1]}}
	}
	if length.Elastic {
		s.Hands = plan.Free
	}
	for _, o := range options {
		o(b, &s)
	}
	d.Steps = append(d.Steps, len(b.Plan.Steps))
	b.Plan.Steps = append(b.Plan.Steps, s)
	return len(b.Plan.Steps) - 1
}

// Takes is an uncertain length of so many minutes, give or take nothing.
func Takes(minutes int) plan.Length {
	d := time.Duration(minutes) * time.Minute
	return plan.Length{Shortest: d, Likely: d, Longest: d}
}

// Waits is an elastic length; most below 0 is without limit.
func Waits(least, most int) plan.Length {
	l := plan.Length{Elastic: true, Shortest: time.Duration(least) * time.Minute, Longest: plan.Forever}
	l.Likely = l.Shortest
	if most >= 0 {
		l.Longest = time.Duration(most) * time.Minute
	}
	return l
}

// Hands sets what the step asks of a cook.
func Hands(h plan.Hands) Option { return func(_ *Builder, s *plan.Step) { s.Hands = h } }

// By asks for one cook.
func By(cook int) Option { return func(_ *Builder, s *plan.Step) { s.By = cook } }

// Oven asks for the only oven, at ± plan.DialError, and makes the step free.
func Oven(at plan.Celsius, space int) Option {
	return func(_ *Builder, s *plan.Step) {
		s.Oven = &plan.Bake{In: -1, At: at, Lo: at - plan.DialError, Hi: at + plan.DialError, Space: space}
		s.Hands = plan.Free
	}
}

// Burner asks for one burner and makes the step near.
func Burner(size plan.BurnerSize) Option {
	return func(_ *Builder, s *plan.Step) {
		s.Burner, s.Hands = &plan.BurnerUse{Size: size, Count: 1}, plan.Near
	}
}

// Uses asks for one piece of a tool.
func Uses(tool int) Option {
	return func(_ *Builder, s *plan.Step) { s.Uses = append(s.Uses, plan.Use{Tool: tool, Count: 1}) }
}

// Vessel has the step's food in one piece of a tool.
func Vessel(tool int) Option {
	return func(_ *Builder, s *plan.Step) { s.Vessel = &plan.Use{Tool: tool, Count: 1} }
}

// In asks for one of several ovens.
func In(oven int) Option { return func(_ *Builder, s *plan.Step) { s.Oven.In = oven } }

// Shut keeps the oven's door shut.
func Shut(_ *Builder, s *plan.Step) { s.Oven.Shut = true }

// Grill asks for the heat from above, and makes the step free.
func Grill(space int) Option {
	return func(_ *Builder, s *plan.Step) {
		s.Oven = &plan.Bake{In: -1, At: plan.GrillHeat, Lo: plan.GrillHeat - plan.GrillError, Hi: plan.GrillHeat + plan.GrillError, Space: space, Grill: true}
		s.Hands = plan.Free
	}
}

// Stands has a wait take so many places of a cold place.
func Stands(place string, places int) Option {
	return func(_ *Builder, s *plan.Step) { s.Cold, s.ColdPlaces = place, places }
}

// Chilled is a keep in a cold place that may not be longer, in hours.
func Chilled(most int, place string, places int) Option {
	d := time.Duration(most) * time.Hour
	return func(_ *Builder, s *plan.Step) {
		s.Keeps = plan.Keep{Kind: plan.Limit, For: d, AtMost: d, Place: place, Places: places}
	}
}

// Warm is a keep in an oven (-1: any) from lo to hi that may not be longer, in
// minutes.
func Warm(most, oven int, lo, hi plan.Celsius, space int) Option {
	d := time.Duration(most) * time.Minute
	return func(_ *Builder, s *plan.Step) {
		s.Keeps = plan.Keep{Kind: plan.Limit, For: d, AtMost: d, Place: "oven", Warm: &plan.Bake{In: oven, At: (lo + hi) / 2, Lo: lo, Hi: hi, Space: space}}
	}
}

// Remind adds a reminder; minutes are those of plan.Every and plan.BeforeEnd.
func Remind(when plan.RemindWhen, minutes int) Option {
	return func(_ *Builder, s *plan.Step) {
		s.Reminds = append(s.Reminds, plan.Remind{When: when, For: time.Duration(minutes) * time.Minute, Text: "look"})
	}
}

// After replaces the step above by these.
func After(links ...plan.Link) Option {
	return func(_ *Builder, s *plan.Step) { s.After = links }
}

// AtOnce starts the step when the one before it ends.
func AtOnce(_ *Builder, s *plan.Step) { s.AtOnce = true }

// Keeps is a liking, with the most it may be, in minutes.
func Keeps(liked, most int) Option {
	return func(_ *Builder, s *plan.Step) {
		s.Keeps = plan.Keep{Kind: plan.Liking, For: time.Duration(liked) * time.Minute, AtMost: time.Duration(most) * time.Minute}
	}
}

// Limit is a keep that may not be longer, in minutes.
func Limit(most int) Option {
	d := time.Duration(most) * time.Minute
	return func(_ *Builder, s *plan.Step) { s.Keeps = plan.Keep{Kind: plan.Limit, For: d, AtMost: d} }
}

// Assumed marks the keep as one that the plan does not state.
func Assumed(_ *Builder, s *plan.Step) { s.Keeps.Assumed = true }

// Slot returns a slot at times that At reads, with a cook, an oven, a "large" or
// "small" burner by name: Slot("18:30", "19:10", "oven").
func (b *Builder) Slot(from, to string, with ...string) plan.Slot {
	s := plan.Slot{Start: b.At(from), End: b.At(to), Cook: -1, Oven: -1}
	for _, w := range with {
		switch w {
		case "small":
			s.Burner = plan.Small
		case "large":
			s.Burner = plan.Large
		default:
			b.who(&s, w)
		}
	}
	return s
}

func (b *Builder) who(s *plan.Slot, name string) {
	for i, c := range b.Plan.Kitchen.Cooks {
		if c.Name == name {
			s.Cook = i
			return
		}
	}
	for i, o := range b.Plan.Kitchen.Ovens {
		if o.Name == name {
			s.Oven = i
			return
		}
	}
	panic(fmt.Sprintf("plantest: no cook, oven or burner %q", name))
}
