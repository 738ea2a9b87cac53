package rehearse_test

import (
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/run"
)

// kinds make a script of one kind of mishap at a moment of a run that has gone as
// planned; nil where the dinner has nothing that it could befall then.
var kinds = []struct {
	name  string
	make  func(v view) []mishap.Mishap
	heavy bool // has much planned again, and again
}{
	{"longer", func(v view) []mishap.Mishap { return v.steps(mishap.Longer, v.cooking, 20) }, false},
	{"takes-longer", func(v view) []mishap.Mishap { return v.takes(15 * time.Minute) }, false},
	{"takes-less", func(v view) []mishap.Mishap { return v.takes(-3 * time.Minute) }, false},
	{"reading", func(v view) []mishap.Mishap {
		out := v.steps(mishap.Reading, func(i int) bool { return v.going(i) && v.Plan.Steps[i].Until.HasTemp }, 0)
		for k := range out { // lower than it should be by now
			i := out[k].Step
			done := float64(v.now.Sub(v.Steps[i].Started)) / float64(v.Plan.Steps[i].Length.Planned())
			out[k].Temp = 10 + plan.Celsius(0.7*done)*(v.Plan.Steps[i].Until.Temp-10)
		}
		return out
	}, false},
	{"burnt-again", func(v view) []mishap.Mishap {
		return v.again(v.steps(mishap.Burnt, func(i int) bool { return v.going(i) && v.eaten(i) && !v.Plan.Steps[i].Length.Elastic }, 0))
	}, true},
	{"dish-burnt-again", func(v view) []mishap.Mishap { return v.again(v.dishes(mishap.Burnt, v.quick)) }, true},
	{"dish-burnt-and-dropped", func(v view) []mishap.Mishap { return v.dishes(mishap.Burnt, v.going) }, false},
	{"step-dropped", func(v view) []mishap.Mishap {
		return v.steps(mishap.Dropped, func(i int) bool { return v.ahead(i) && !v.eaten(i) }, 0)
	}, false},
	{"dish-dropped", func(v view) []mishap.Mishap { return v.dishes(mishap.Dropped, v.ahead) }, false},
	{"given-to", func(v view) []mishap.Mishap {
		out := v.steps(mishap.GivenTo, func(i int) bool { return v.ahead(i) && v.Plan.Steps[i].Hands.Working() }, 0)
		for k := range out {
			out[k].Cook = (v.Timetable.Slots[out[k].Step].Cook + 1) % len(v.Plan.Kitchen.Cooks)
		}
		return out
	}, false},
	{"put-on", func(v view) []mishap.Mishap {
		out := v.steps(mishap.PutOn, func(i int) bool {
			return v.ahead(i) && v.Plan.Steps[i].Burner != nil && v.Timetable.Slots[i].Burner == plan.Small
		}, 0)
		for k := range out {
			out[k].Burner = plan.Large
		}
		return out
	}, false},
	{"away", func(v view) []mishap.Mishap { return v.cooks(20) }, false},
	{"away-and-back", func(v view) []mishap.Mishap {
		out := v.cooks(60)
		for _, m := range out {
			back := mishap.None(mishap.Back)
			back.At, back.Cook = v.now.Add(10*time.Minute), m.Cook
			out = append(out, back)
		}
		return out
	}, false},
	{"away-from-work", func(v view) []mishap.Mishap { return v.atWork(15) }, false},
	{"away-from-work-and-back", func(v view) []mishap.Mishap {
		out := v.atWork(40)
		for _, m := range out {
			back := mishap.None(mishap.Back)
			back.At, back.Cook = m.At.Add(6*time.Minute), m.Cook
			out = append(out, back)
		}
		return out
	}, false},
	{"away-and-back-at-once", func(v view) []mishap.Mishap {
		out := v.atWork(10)
		for _, m := range out {
			back := mishap.None(mishap.Back)
			back.At, back.Cook = m.At, m.Cook
			out = append(out, back)
		}
		return out
	}, false},
	{"burner-fails", func(v view) []mishap.Mishap { return []mishap.Mishap{v.burner(mishap.Fails, 0)} }, false},
	{"burner-fails-and-works", func(v view) []mishap.Mishap {
		return []mishap.Mishap{v.burner(mishap.Fails, 0), v.burner(mishap.Works, 15*time.Minute)}
	}, false},
	{"oven-fails", func(v view) []mishap.Mishap { return []mishap.Mishap{v.oven(mishap.Fails, 0)} }, false},
	{"oven-fails-and-works", func(v view) []mishap.Mishap {
		return []mishap.Mishap{v.oven(mishap.Fails, 0), v.oven(mishap.Works, 5*time.Minute)}
	}, false},
	{"hold", func(v view) []mishap.Mishap { return v.courses(mishap.Hold, 15) }, false},
	{"hold-and-release", func(v view) []mishap.Mishap {
		out := v.courses(mishap.Hold, 0)
		for _, m := range out {
			m.Kind, m.At = mishap.Release, v.Timetable.Serves[m.Course].Add(7*time.Minute)
			out = append(out, m)
		}
		return out
	}, false},
	{"guests-late", func(v view) []mishap.Mishap {
		if !v.Courses[0].Served.IsZero() {
			return nil
		}
		return []mishap.Mishap{v.mishap(mishap.GuestsLate, 25)}
	}, false},
	{"silent", func(v view) []mishap.Mishap { return []mishap.Mishap{v.mishap(mishap.Silent, 20)} }, false},
	{"remedy", func(v view) []mishap.Mishap {
		out := v.steps(mishap.Longer, v.cooking, 60)
		for range out {
			take := v.mishap(mishap.TakeRemedy, 0)
			take.Remedy = 1
			out = append(out, take)
		}
		return out
	}, true},
}

// view is a run at a moment.
type view struct {
	*run.State
	now time.Time
}

func (v view) mishap(kind mishap.Kind, minutes int) mishap.Mishap {
	m := mishap.None(kind)
	m.At, m.By = v.now, time.Duration(minutes)*time.Minute
	return m
}

func (v view) going(i int) bool { return v.Steps[i].Status == plan.Begun }

// quick is a step that is going of a dish that can be made again the same evening.
func (v view) quick(i int) bool {
	long := time.Duration(0)
	for _, j := range v.Plan.Dishes[v.Plan.Steps[i].Dish].Steps {
		long += v.Plan.Steps[j].Length.Planned()
	}
	return v.going(i) && long <= 4*time.Hour
}

func (v view) ahead(i int) bool {
	return v.Steps[i].Status == plan.Ahead && v.Courses[v.Plan.CourseOf(i)].Served.IsZero()
}
func (v view) eaten(i int) bool { return v.Plan.Dishes[v.Plan.Steps[i].Dish].Chore == nil }

// cooking is a step that is going, or still to come, and takes as long as it takes.
func (v view) cooking(i int) bool {
	return (v.going(i) || v.ahead(i)) && v.eaten(i) && !v.Plan.Steps[i].Length.Elastic
}

// steps makes a mishap of the step that fits and ends first.
func (v view) steps(kind mishap.Kind, fits func(int) bool, minutes int) []mishap.Mishap {
	m := v.mishap(kind, minutes)
	for i := range v.Steps {
		if fits(i) && (m.Step < 0 || v.Timetable.Slots[i].End.Before(v.Timetable.Slots[m.Step].End)) {
			m.Step = i
		}
	}
	if m.Step < 0 {
		return nil
	}
	return []mishap.Mishap{m}
}

// takes is a step that takes so much longer than planned, found when its time is up.
func (v view) takes(by time.Duration) []mishap.Mishap {
	out := v.steps(mishap.Takes, func(i int) bool { return v.cooking(i) && v.Plan.Steps[i].Length.Planned() > 5*time.Minute }, 0)
	for k := range out {
		out[k].At, out[k].By = time.Time{}, v.Plan.Steps[out[k].Step].Length.Planned()+by
	}
	return out
}

// dishes makes a mishap of the first dish with a step that fits.
func (v view) dishes(kind mishap.Kind, fits func(int) bool) []mishap.Mishap {
	out := v.steps(kind, func(i int) bool { return fits(i) && v.eaten(i) }, 0)
	for k := range out {
		out[k].Dish, out[k].Step = v.Plan.Steps[out[k].Step].Dish, -1
	}
	return out
}

func (v view) again(ms []mishap.Mishap) []mishap.Mishap {
	for k := range ms {
		ms[k].Again = true
	}
	return ms
}

// cooks makes the cook be away whose next work comes first.
func (v view) cooks(minutes int) []mishap.Mishap {
	out := v.steps(mishap.Away, func(i int) bool { return v.ahead(i) && v.Plan.Steps[i].Hands.Working() }, minutes)
	for k := range out {
		out[k].Cook, out[k].Step = v.Timetable.Slots[out[k].Step].Cook, -1
	}
	return out
}

// atWork calls the cook whose next work comes first away from it, two minutes in.
func (v view) atWork(minutes int) []mishap.Mishap {
	out := v.steps(mishap.Away, func(i int) bool {
		return v.ahead(i) && v.Plan.Steps[i].Hands.Working() && v.Plan.Steps[i].Length.Planned() > 3*time.Minute
	}, minutes)
	for k := range out {
		slot := v.Timetable.Slots[out[k].Step]
		out[k].At, out[k].Cook, out[k].Step = slot.Start.Add(2*time.Minute), slot.Cook, -1
	}
	return out
}

// courses makes a mishap of the next course.
func (v view) courses(kind mishap.Kind, minutes int) []mishap.Mishap {
	for c := range v.Courses {
		if v.Courses[c].Served.IsZero() {
			m := v.mishap(kind, minutes)
			m.Course = c
			return []mishap.Mishap{m}
		}
	}
	return nil
}

func (v view) burner(kind mishap.Kind, later time.Duration) mishap.Mishap {
	m := v.mishap(kind, 0)
	m.Burner, m.At = plan.Large, v.now.Add(later)
	return m
}

// oven is the one that is used last.
func (v view) oven(kind mishap.Kind, later time.Duration) mishap.Mishap {
	m := v.mishap(kind, 0)
	m.Oven, m.At = 0, v.now.Add(later)
	last := time.Time{}
	for i, s := range v.Timetable.Slots {
		if v.Plan.Steps[i].Oven != nil && s.End.After(last) {
			m.Oven, last = s.Oven, s.End
		}
	}
	return m
}
