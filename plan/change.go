package plan

import (
	"fmt"
	"slices"
	"time"
)

// ChangeKind says what a Change alters.
type ChangeKind string

// What a change of a plan can be. Each line names the fields that it uses.
const (
	// ServeLater: Course, By. The course is asked for so much later. With the first
	// the whole dinner moves; with a later one what comes after it moves only as far
	// as it must: until the guests are through with the one before.
	ServeLater ChangeKind = "serve"
	// TolerateLate: Course, By. The course may be so much later than it may be now.
	TolerateLate ChangeKind = "late_ok"
	// LeaveTable: Course, By. Who sits with the course may leave the table for so long.
	LeaveTable ChangeKind = "leave"
	// KeepLonger: Step, By. What the step made may wait so much longer than liked;
	// not beyond what it may at most.
	KeepLonger ChangeKind = "keep"
	// WaitLonger: Step, By. The wait may last so much longer.
	WaitLonger ChangeKind = "wait"
	// BakeAt: Step, Temp, By. The step bakes at this temperature, within what it
	// accepts, and takes By less; not less than its shortest.
	BakeAt ChangeKind = "heat"
	// GiveTo: Step, Cook. Another cook takes the step.
	GiveTo ChangeKind = "cook"
	// PutOn: Step and Oven, Burner ("large", "small") or Tool. The step is done
	// there; a tool takes the place of the vessel of all steps of the dish that
	// share it, else of the step's only tool.
	PutOn ChangeKind = "put"
	// SmallerBurner: Step, By. The step asks for a large burner and stands on a small
	// one; it takes By longer.
	SmallerBurner ChangeKind = "small_burner"
	// Drop: Step or Dish. It is left out. Only a run can tell what is left of it:
	// run.State.Apply skips its steps, Plan.With refuses it.
	Drop ChangeKind = "drop"
	// BurnerFails: Burner ("large", "small"). There is one less of that size.
	BurnerFails ChangeKind = "burner_fails"
	// OvenFails: Oven. It has no room; what asked for it by name may go into another.
	OvenFails ChangeKind = "oven_fails"
	// NotThere: Cook, From, To. The cook is away; a zero To is for good.
	NotThere ChangeKind = "away"
)

// Change is one difference between the plan as it was written and as it stands:
// what happened (a course held, a burner that failed) or what the cook gave up to
// be on time (a remedy). It is plain data and goes into the journal as it is:
// names, not indices, for a plan's order may differ; a kind's meaning never
// changes; a field that it does not use is left out.
type Change struct {
	Kind   ChangeKind    `json:"kind"`
	Step   string        `json:"step,omitempty"`   // full reference
	Dish   string        `json:"dish,omitempty"`   // its ID
	Course string        `json:"course,omitempty"` // name, as of what follows
	Cook   string        `json:"cook,omitempty"`
	Oven   string        `json:"oven,omitempty"`
	Burner string        `json:"burner,omitempty"` // "large", "small"
	Tool   string        `json:"tool,omitempty"`
	By     time.Duration `json:"by,omitempty"`   // nanoseconds
	Temp   *float64      `json:"temp,omitempty"` // degrees Celsius
	From   time.Time     `json:"from,omitzero"`
	To     time.Time     `json:"to,omitzero"`
}

// With returns the plan with a change; p stays as it is. Steps, courses and
// everything else keep their indices.
//
// Errors: a name that the plan does not have; what the change cannot do.
func (p *Plan) With(c Change) (*Plan, error) {
	q := p.copied()
	change, ok := changes[c.Kind]
	if !ok {
		return nil, fmt.Errorf("unknown change %q", c.Kind)
	}
	if err := change(q, c); err != nil {
		return nil, fmt.Errorf("change %q: %w", c.Kind, err)
	}
	return q, nil
}

var changes = map[ChangeKind]func(p *Plan, c Change) error{
	ServeLater:    (*Plan).serveLater,
	TolerateLate:  (*Plan).tolerateLate,
	LeaveTable:    (*Plan).leaveTable,
	KeepLonger:    (*Plan).keepLonger,
	WaitLonger:    (*Plan).waitLonger,
	BakeAt:        (*Plan).bakeAt,
	GiveTo:        (*Plan).giveTo,
	PutOn:         (*Plan).putOn,
	SmallerBurner: (*Plan).smallerBurner,
	Drop:          func(*Plan, Change) error { return fmt.Errorf("what is dropped is for the run to say") },
	BurnerFails:   (*Plan).burnerFails,
	OvenFails:     (*Plan).ovenFails,
	NotThere:      (*Plan).notThere,
}

// copied copies what a change may write to: courses, steps and the kitchen. What
// a step points to is replaced, never written to.
func (p *Plan) copied() *Plan {
	q := *p
	q.Courses = slices.Clone(p.Courses)
	q.Steps = slices.Clone(p.Steps)
	q.Kitchen.Cooks = slices.Clone(p.Kitchen.Cooks)
	q.Kitchen.Ovens = slices.Clone(p.Kitchen.Ovens)
	return &q
}

func (p *Plan) serveLater(c Change) error {
	i, err := p.course(c.Course)
	if err != nil {
		return err
	}
	defer p.stay(p.ends())
	p.Courses[i].Serve += c.By
	for k := i + 1; k < len(p.Courses); k++ {
		if i == 0 {
			p.Courses[k].Serve += c.By
		} else {
			p.Courses[k].Serve = max(p.Courses[k].Serve, p.Courses[k-1].Serve+p.Courses[k-1].Seated)
		}
	}
	return nil
}

// ends is the last moment at which a course may come.
func (p *Plan) ends() time.Time {
	var last time.Duration
	for _, c := range p.Courses {
		last = max(last, c.Serve+c.LateOK)
	}
	return p.Table.Add(last)
}

// stay has those who were there to the end of the dinner, as it was, be there to
// the end as it is: a cook of whom the plan says nothing is.
func (p *Plan) stay(was time.Time) {
	for k := range p.Kitchen.Cooks {
		cook := &p.Kitchen.Cooks[k]
		cook.Free = slices.Clone(cook.Free)
		for w := range cook.Free {
			if cook.Free[w].To.Equal(was) {
				cook.Free[w].To = p.ends()
			}
		}
	}
}

func (p *Plan) tolerateLate(c Change) error {
	i, err := p.course(c.Course)
	if err == nil {
		defer p.stay(p.ends())
		p.Courses[i].LateOK += c.By
	}
	return err
}

func (p *Plan) leaveTable(c Change) error {
	i, err := p.course(c.Course)
	if err == nil {
		p.Courses[i].SlipsAway = max(p.Courses[i].SlipsAway, c.By)
	}
	return err
}

func (p *Plan) keepLonger(c Change) error {
	s, err := p.step(c.Step)
	switch {
	case err != nil:
		return err
	case s.Keeps.Kind != Liking:
		return fmt.Errorf("%q keeps by a limit or freely, only a liking can be stretched", c.Step)
	case s.Keeps.For+c.By > s.Keeps.AtMost:
		return fmt.Errorf("%q keeps %s at most", c.Step, Spell(s.Keeps.AtMost))
	}
	s.Keeps.For += c.By
	return nil
}

func (p *Plan) waitLonger(c Change) error {
	s, err := p.step(c.Step)
	switch {
	case err != nil:
		return err
	case !s.Length.Elastic:
		return fmt.Errorf("%q is no wait", c.Step)
	case s.Length.Longest != Forever:
		s.Length.Longest += c.By
	}
	return nil
}

func (p *Plan) bakeAt(c Change) error {
	s, err := p.step(c.Step)
	switch {
	case err != nil:
		return err
	case s.Oven == nil || c.Temp == nil:
		return fmt.Errorf("%q needs an oven and a temperature", c.Step)
	}
	at := Celsius(*c.Temp)
	if at < s.Oven.Lo || at > s.Oven.Hi {
		return fmt.Errorf("%q does not accept %s", c.Step, p.Units.Temp(at))
	}
	bake := *s.Oven
	bake.At, bake.Lo, bake.Hi = at, max(bake.Lo, at-DialError), min(bake.Hi, at+DialError)
	s.Oven = &bake
	s.Length.Likely = max(s.Length.Shortest, s.Length.Likely-c.By)
	return nil
}

func (p *Plan) giveTo(c Change) error {
	s, err := p.step(c.Step)
	if err != nil {
		return err
	}
	cook := slices.IndexFunc(p.Kitchen.Cooks, func(k Cook) bool { return k.Name == c.Cook })
	switch {
	case cook < 0:
		return fmt.Errorf("unknown cook %q", c.Cook)
	case !s.Hands.Working():
		return fmt.Errorf("%q takes nobody from start to end", c.Step)
	}
	s.By = cook
	return nil
}

func (p *Plan) putOn(c Change) error {
	s, err := p.step(c.Step)
	if err != nil {
		return err
	}
	switch {
	case c.Oven != "":
		oven := p.oven(c.Oven)
		if oven < 0 || s.Oven == nil {
			return fmt.Errorf("unknown oven %q, or %q needs none", c.Oven, c.Step)
		}
		bake := *s.Oven
		bake.In = oven
		s.Oven = &bake
	case c.Burner != "":
		size, err := burnerSize(c.Burner)
		if err != nil {
			return err
		}
		if s.Burner == nil || s.Burner.Size == Large && size == Small {
			return fmt.Errorf("%q cannot stand on a %s burner", c.Step, size)
		}
		s.Burner = &BurnerUse{Size: size, Count: s.Burner.Count}
	default:
		return p.putIn(s, c)
	}
	return nil
}

func (p *Plan) smallerBurner(c Change) error {
	s, err := p.step(c.Step)
	switch {
	case err != nil:
		return err
	case s.Burner == nil || s.Burner.Size != Large:
		return fmt.Errorf("%q asks for no large burner", c.Step)
	case s.Length.Elastic:
		return fmt.Errorf("%q is a wait", c.Step)
	}
	s.Burner = &BurnerUse{Size: Small, Count: s.Burner.Count}
	s.Length.Shortest += c.By
	s.Length.Likely += c.By
	s.Length.Longest += c.By
	return nil
}

// putIn gives a step another vessel or tool.
func (p *Plan) putIn(s *Step, c Change) error {
	tool := slices.IndexFunc(p.Kitchen.Tools, func(t Tool) bool { return t.Name == c.Tool })
	switch {
	case tool < 0:
		return fmt.Errorf("unknown tool %q", c.Tool)
	case s.Vessel != nil:
		was := s.Vessel.Tool
		for _, i := range p.Dishes[s.Dish].Steps {
			if v := p.Steps[i].Vessel; v != nil && v.Tool == was {
				p.Steps[i].Vessel = &Use{Tool: tool, Count: v.Count}
			}
		}
	case len(s.Uses) == 1:
		s.Uses = []Use{{Tool: tool, Count: s.Uses[0].Count}}
	default:
		return fmt.Errorf("%q has no vessel, and not one tool", c.Step)
	}
	return nil
}

func (p *Plan) burnerFails(c Change) error {
	size, err := burnerSize(c.Burner)
	if err != nil {
		return err
	}
	n := &p.Kitchen.Burners.Small
	if size == Large {
		n = &p.Kitchen.Burners.Large
	}
	if *n == 0 {
		return fmt.Errorf("no %s burner works", size)
	}
	*n--
	return nil
}

func (p *Plan) ovenFails(c Change) error {
	oven := p.oven(c.Oven)
	if oven < 0 {
		return fmt.Errorf("unknown oven %q", c.Oven)
	}
	p.Kitchen.Ovens[oven].Shelves = 0
	for i := range p.Steps {
		if b := p.Steps[i].Oven; b != nil && b.In == oven && len(p.Kitchen.Ovens) > 1 {
			bake := *b
			bake.In = -1
			p.Steps[i].Oven = &bake
		}
	}
	return nil
}

func (p *Plan) notThere(c Change) error {
	k := slices.IndexFunc(p.Kitchen.Cooks, func(k Cook) bool { return k.Name == c.Cook })
	if k < 0 {
		return fmt.Errorf("unknown cook %q", c.Cook)
	}
	var left []Window
	for _, w := range p.Kitchen.Cooks[k].Free {
		if before := (Window{w.From, Earlier(w.To, c.From)}); before.From.Before(before.To) {
			left = append(left, before)
		}
		if c.To.IsZero() {
			continue
		}
		if after := (Window{Later(w.From, c.To), w.To}); after.From.Before(after.To) {
			left = append(left, after)
		}
	}
	p.Kitchen.Cooks[k].Free = left
	return nil
}

func (p *Plan) course(name string) (int, error) {
	i := slices.IndexFunc(p.Courses, func(c Course) bool { return c.Name == name })
	if i < 0 {
		return 0, fmt.Errorf("unknown course %q", name)
	}
	return i, nil
}

func (p *Plan) step(id string) (*Step, error) {
	i := p.StepIndex(id)
	if i < 0 {
		return nil, fmt.Errorf("unknown step %q", id)
	}
	return &p.Steps[i], nil
}

func (p *Plan) oven(name string) int {
	return slices.IndexFunc(p.Kitchen.Ovens, func(o Oven) bool { return o.Name == name })
}

func burnerSize(word string) (BurnerSize, error) {
	switch word {
	case Large.String():
		return Large, nil
	case Small.String():
		return Small, nil
	}
	return AnyBurner, fmt.Errorf("unknown size of burner %q, should be large or small", word)
}
