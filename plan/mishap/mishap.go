package mishap

import (
	"fmt"
	"time"

	"example.org/kettledrum/plan"
)

// Kind names what goes wrong.
type Kind string

// Kinds of mishaps, with the fields of Mishap that each uses beside At.
const (
	Longer     Kind = "longer"      // Step, By
	Takes      Kind = "takes"       // Step, By: how long it truly takes
	Reading    Kind = "reading"     // Step, Temp: what the thermometer shows inside
	OtherCook  Kind = "other_cook"  // Step, Cook takes it
	Dropped    Kind = "dropped"     // Step, or Dish
	Burnt      Kind = "burnt"       // Dish, Again
	Away       Kind = "away"        // Cook, By
	Fails      Kind = "fails"       // Oven, or else Burner
	Hold       Kind = "hold"        // Course, By
	GuestsLate Kind = "guests_late" // By
	Silent     Kind = "silent"      // By: nobody answers a cue for so long
	TakeRemedy Kind = "take_remedy" // Remedy
)

// Mishap is one thing that goes wrong.
type Mishap struct {
	Kind Kind
	// At is when it happens, or is told. Zero, of Longer and Takes only: when the
	// step's time is up.
	At time.Time
	// Step, Dish, Cook, Oven and Course are indices into the plan's, -1 for none.
	Step, Dish, Cook, Oven, Course int
	Burner                         plan.BurnerSize
	By                             time.Duration
	Temp                           plan.Celsius
	Again                          bool // what is burnt is begun again, else it is given up
	Remedy                         int  // which of those offered, from 1
	Pos                            plan.Pos
}

// None is a mishap of a kind that is about nothing yet.
func None(kind Kind) Mishap {
	return Mishap{Kind: kind, Step: -1, Dish: -1, Cook: -1, Oven: -1, Course: -1}
}

// Text says what happens, in the plan's own words, on one line.
func (m Mishap) Text(p *plan.Plan) string {
	long := plan.Spell(m.By)
	switch m.Kind {
	case Longer:
		return fmt.Sprintf("%s takes %s longer", p.StepName(m.Step), long)
	case Takes:
		return fmt.Sprintf("%s takes %s", p.StepName(m.Step), long)
	case Reading:
		return fmt.Sprintf("%s is %s inside", p.StepName(m.Step), p.Units.Temp(m.Temp))
	case OtherCook:
		return fmt.Sprintf("%s is for %s", p.StepName(m.Step), p.Kitchen.Cooks[m.Cook].Name)
	case Dropped:
		if m.Dish >= 0 {
			return fmt.Sprintf("%s is dropped", p.Dishes[m.Dish].Name)
		}
		return fmt.Sprintf("%s is dropped", p.StepName(m.Step))
	case Burnt:
		if m.Again {
			return fmt.Sprintf("%s is burnt and begun again", p.Dishes[m.Dish].Name)
		}
		return fmt.Sprintf("%s is burnt and dropped", p.Dishes[m.Dish].Name)
	case Away:
		return fmt.Sprintf("%s is away for %s", p.Kitchen.Cooks[m.Cook].Name, long)
	case Fails:
		if m.Oven >= 0 {
			return fmt.Sprintf("the %s fails", p.Kitchen.Ovens[m.Oven].Name)
		}
		return fmt.Sprintf("a %s burner fails", m.Burner)
	case Hold:
		return fmt.Sprintf("%s is held by %s", p.Courses[m.Course].Name, long)
	case GuestsLate:
		return fmt.Sprintf("the guests are %s late", long)
	case Silent:
		return fmt.Sprintf("nobody answers for %s", long)
	}
	return fmt.Sprintf("remedy %d is taken", m.Remedy)
}
