package debrief

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Dinner is what is looked back at.
type Dinner struct {
	// Plan is the plan as it was written, Stood as it stood at the end: with what was
	// held, what failed, who was away.
	Plan, Stood *plan.Plan
	// Guests is Plan with how much longer the guests alone had the courses wait; nil
	// where they did not.
	Guests *plan.Plan
	// Planned is the timetable that the dinner began with, Was how it truly went.
	Planned, Was *plan.Timetable
	// From is when the last hours began; what lies before is not looked at.
	From time.Time
}

// Debrief is what there is to say afterwards.
type Debrief struct {
	Courses []Course // one for each of the plan's
	Tight   *Tight   // nil where nobody had anything to do
	Waited  *Waited  // nil where no hot food waited
	Idle    []Idle   // one for each cook
	Lost    Lost
}

// Of looks back at a dinner of which every course was served.
func Of(d Dinner) Debrief {
	b := Debrief{Courses: d.courses(), Tight: d.tight(), Waited: d.waited(), Lost: d.lost()}
	for k := range d.Plan.Kitchen.Cooks {
		b.Idle = append(b.Idle, d.idle(k))
	}
	return b
}

// Late reports whether a course came later than the guests had it wait.
func (b *Debrief) Late() bool {
	return slices.ContainsFunc(b.Courses, func(c Course) bool { return c.late() })
}

// Lost is what there was less of at the end than the plan has.
type Lost struct {
	Large, Small int             // burners that failed
	Ovens        []int           // that failed
	Away         []time.Duration // for how long each cook was away in the last hours
}

func (d *Dinner) lost() Lost {
	was, is := &d.Plan.Kitchen, &d.Stood.Kitchen
	l := Lost{Large: was.Burners.Large - is.Burners.Large, Small: was.Burners.Small - is.Burners.Small}
	for k := range was.Ovens {
		if was.Ovens[k].Shelves > 0 && is.Ovens[k].Shelves == 0 {
			l.Ovens = append(l.Ovens, k)
		}
	}
	for k := range was.Cooks {
		there := length(within(was.Cooks[k].Free, d.From, d.to())) - length(within(is.Cooks[k].Free, d.From, d.to()))
		l.Away = append(l.Away, max(0, there))
	}
	return l
}

// to is the last serve.
func (d *Dinner) to() (last time.Time) {
	for _, at := range d.Was.Serves {
		last = plan.Later(last, at)
	}
	return last
}

// there reports whether step i was done, at least a part of it in the last hours.
func (d *Dinner) there(i int) bool {
	s := d.Was.Slots[i]
	return s.Progress != plan.Skipped && s.End.After(d.From)
}

// took is how long step i truly took, without what it stood still.
func (d *Dinner) took(i int) time.Duration {
	s := d.Was.Slots[i]
	return s.End.Sub(s.Start) - s.Still
}
