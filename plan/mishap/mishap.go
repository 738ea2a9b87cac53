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
	Burnt      Kind = "burnt"       // Step or Dish, Again
	Dropped    Kind = "dropped"     // Step or Dish
	GivenTo    Kind = "given_to"    // Step, Cook
	PutOn      Kind = "put_on"      // Step; Oven or else Burner
	Away       Kind = "away"        // Cook, By
	Back       Kind = "back"        // Cook
	Fails      Kind = "fails"       // Oven or else Burner; Step: what stood there, or -1
	Works      Kind = "works"       // Oven or else Burner
	Hold       Kind = "hold"        // Course, By: zero is until released
	Release    Kind = "release"     // Course
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
	long, what, where := plan.Spell(m.By), "", "a "+m.Burner.String()+" burner"
	switch {
	case m.Step >= 0:
		what = p.StepName(m.Step)
	case m.Dish >= 0:
		what = p.Dishes[m.Dish].Name
	case m.Cook >= 0:
		what = p.Kitchen.Cooks[m.Cook].Name
	case m.Course >= 0:
		what = p.Courses[m.Course].Name
	}
	if m.Oven >= 0 {
		where = "the " + p.Kitchen.Ovens[m.Oven].Name
	}
	switch m.Kind {
	case Longer:
		return fmt.Sprintf("%s takes %s longer", what, long)
	case Takes:
		return fmt.Sprintf("%s takes %s", what, long)
	case Reading:
		return fmt.Sprintf("%s is %s inside", what, p.Units.Temp(m.Temp))
	case Burnt:
		if m.Again {
			return what + " is burnt and begun again"
		}
		return what + " is burnt and dropped"
	case Dropped:
		return what + " is dropped"
	case GivenTo:
		return fmt.Sprintf("%s is for %s to do", what, p.Kitchen.Cooks[m.Cook].Name)
	case PutOn:
		return fmt.Sprintf("%s goes to %s", what, where)
	case Away:
		return fmt.Sprintf("%s is away for %s", what, long)
	case Back:
		return what + " is back"
	case Fails:
		if m.Step >= 0 {
			return fmt.Sprintf("%s fails under: %s", where, what)
		}
		return where + " fails"
	case Works:
		return where + " works again"
	case Hold:
		if m.By == 0 {
			return what + " is held until released"
		}
		return fmt.Sprintf("%s is held for %s", what, long)
	case Release:
		return what + " is held no longer"
	case GuestsLate:
		return fmt.Sprintf("the guests are %s late", long)
	case Silent:
		return fmt.Sprintf("nobody answers for %s", long)
	}
	return fmt.Sprintf("remedy %d is taken", m.Remedy)
}
