package tui

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// lanes is where the cook stands in the lanes view.
type lanes struct {
	zoom int // into zooms; 0: all that is left of the day fits
	// shift is by how much the view was moved from where it follows the clock.
	shift time.Duration
	row   int // selected row
	step  int // selected step, -1 for none yet
}

// zooms are how many minutes a cell stands for.
var zooms = []int{0, 1, 2, 3, 5, 10, 15, 30, 60}

// piece is a step in a lane, or something else that takes time there.
type piece struct {
	step     int // -1: the cook sits at table
	from, to time.Time
	name     string
	how      pieceKind
	slack    time.Duration // shown after it
}

type pieceKind int

const (
	pieceAhead pieceKind = iota
	pieceGoing
	pieceOver
	pieceAssumed
	pieceDone
	pieceTable // at table
	// A minute of a cook's: something is put in or on, taken out or off, stirred or
	// turned, the oven set.
	pieceIn
	pieceOut
	pieceStir
	pieceDial
)

// lane is one line of the lanes view.
type lane struct {
	label  string
	pieces []piece // by time, not overlapping
	marks  []mark
	oven   int  // the profile of this one, -1 for none
	head   bool // the first of a group: ovens, burners, cooks, dishes
}

// mark is a moment in a lane that takes no time: a serve, a setting.
type mark struct {
	at   time.Time
	text string
}

// pieceOf is a step as it was or is projected; ok is false where there is nothing
// to draw.
func (m *Model) pieceOf(i int) (p piece, ok bool) {
	pr, st := m.moment.Projection, m.state.Steps[i]
	if i >= len(pr.Start) || pr.Start[i].IsZero() || st.Status == plan.Skipped {
		return p, false
	}
	p = piece{step: i, from: pr.Start[i], to: pr.End[i], name: m.state.Plan.Steps[i].Do}
	switch {
	case st.Status == plan.Done:
		p.how = pieceDone
	case st.Status == plan.Begun:
		p.how = pieceGoing
		if !p.to.After(m.now) {
			p.how, p.to = pieceOver, m.now
		}
	case !p.from.After(m.now) && m.assumed(i):
		p.how = pieceAssumed
	}
	if t := m.state.Timetable; t != nil && st.Status == plan.Ahead {
		p.slack = max(0, t.Slots[i].Slack-max(0, p.from.Sub(t.Slots[i].Start)))
	}
	return p, true
}

// assumed reports whether a step goes on though nobody said so.
func (m *Model) assumed(i int) bool {
	return slices.ContainsFunc(m.moment.Going, func(g run.Going) bool { return g.Step == i && g.Unconfirmed }) ||
		slices.ContainsFunc(m.moment.Unconfirmed, func(u run.Unconfirmed) bool { return u.Cue.Step == i })
}

// lanesOf builds all lanes: the courses, each oven, the burners, each cook, each dish.
func (m *Model) lanesOf() []lane {
	p := m.state.Plan
	var out []lane
	serves := lane{label: "Courses", oven: -1, head: true}
	for i := range m.moment.Courses {
		c := &m.moment.Courses[i]
		serves.marks = append(serves.marks, mark{m.courseTime(c), p.Courses[c.Course].Name})
	}
	out = append(out, serves)
	all := make([]piece, len(p.Steps))
	shown := make([]bool, len(p.Steps))
	for i := range p.Steps {
		all[i], shown[i] = m.pieceOf(i)
	}
	if m.state.Timetable != nil {
		out = append(out, m.kitchenLanes(all, shown)...)
	}
	dishes := len(out)
	for d := range p.Dishes {
		var in []piece
		for _, i := range p.Dishes[d].Steps {
			if shown[i] {
				in = append(in, all[i])
			}
		}
		if name := p.Dishes[d].Name; name != "" {
			out = append(out, packed(name, in)...)
		}
	}
	var chores []piece
	for d := range p.Dishes {
		if p.Dishes[d].Chore != nil {
			for _, i := range p.Dishes[d].Steps {
				if shown[i] {
					chores = append(chores, all[i])
				}
			}
		}
	}
	out = append(out, packed("Chores", chores)...)
	if dishes < len(out) {
		out[dishes].head = true
	}
	return out
}

// kitchenLanes are the ovens, the burners and the cooks.
func (m *Model) kitchenLanes(all []piece, shown []bool) []lane {
	p, slots := m.state.Plan, m.state.Timetable.Slots
	var out []lane
	bare := func(i int) piece { q := all[i]; q.slack = 0; return q }
	for o := range p.Kitchen.Ovens {
		heat := lane{label: p.Kitchen.Ovens[o].Name, oven: o, head: true}
		for _, f := range m.state.Sets {
			if f.Oven == o {
				heat.marks = append(heat.marks, mark{f.At, m.dialText(f.To, f.Off)})
			}
		}
		for _, s := range m.moment.Sets {
			if s.Oven == o {
				heat.marks = append(heat.marks, mark{s.At, m.dialText(s.To, s.Off)})
			}
		}
		var in []piece
		for i := range p.Steps {
			if shown[i] && p.Steps[i].Oven != nil && slots[i].Oven == o {
				in = append(in, bare(i))
			}
		}
		out = append(out, heat)
		out = append(out, packed("", in)...)
	}
	burners := len(out)
	for size := plan.Large; size >= plan.Small; size-- {
		var in []piece
		for i := range p.Steps {
			if shown[i] && p.Steps[i].Burner != nil && slots[i].Burner == size {
				for range p.Steps[i].Burner.Count {
					in = append(in, bare(i))
				}
			}
		}
		for k, l := range packed("", in) {
			l.label = fmt.Sprintf("%s %d", size, k+1)
			out = append(out, l)
		}
	}
	cooks := len(out)
	for c := range p.Kitchen.Cooks {
		var in []piece
		for i := range p.Steps {
			if shown[i] && slots[i].Cook == c {
				in = append(in, bare(i))
			}
		}
		if p.Kitchen.Cooks[c].Sits {
			for i := range m.moment.Courses {
				cm := &m.moment.Courses[i]
				at := m.courseTime(cm)
				in = append(in, piece{step: -1, from: at, to: at.Add(p.Courses[cm.Course].Seated), name: "at table", how: pieceTable})
			}
		}
		lanes := packed(p.Kitchen.Cooks[c].Name, in)
		if len(lanes) == 0 {
			lanes = []lane{{label: p.Kitchen.Cooks[c].Name, oven: -1}}
		}
		out = append(out, fillGaps(lanes, m.touchPieces(c))...)
	}
	for _, at := range []int{burners, cooks} {
		if at < len(out) {
			out[at].head = true
		}
	}
	return out
}

func (m *Model) dialText(to plan.Celsius, off bool) string {
	if off {
		return "off"
	}
	return m.state.Plan.Units.Temp(to)
}

// packed puts pieces into as few lanes as they need without overlapping. Only the
// first has the label.
func packed(label string, in []piece) []lane {
	slices.SortStableFunc(in, func(a, b piece) int { return cmp.Or(a.from.Compare(b.from), a.to.Compare(b.to)) })
	var out []lane
	for _, p := range in {
		k := slices.IndexFunc(out, func(l lane) bool { return !l.pieces[len(l.pieces)-1].to.After(p.from) })
		if k < 0 {
			k = len(out)
			out = append(out, lane{label: label, oven: -1})
			label = ""
		}
		out[k].pieces = append(out[k].pieces, p)
	}
	return out
}

// hasStep reports whether a step can be selected in the lane.
func (l *lane) hasStep() bool {
	return slices.ContainsFunc(l.pieces, func(p piece) bool { return p.step >= 0 })
}

// nearest is the step of the lane whose middle is nearest to a time.
func (l *lane) nearest(at time.Time) int {
	best, found := time.Duration(0), -1
	for _, p := range l.pieces {
		off := at.Sub(p.from.Add(p.to.Sub(p.from) / 2)).Abs()
		if !at.Before(p.from) && at.Before(p.to) {
			off = 0
		}
		if p.step >= 0 && (found < 0 || off < best) {
			best, found = off, p.step
		}
	}
	return found
}

// of finds the piece of a step in the lane.
func (l *lane) of(step int) *piece {
	for i := range l.pieces {
		if l.pieces[i].step == step {
			return &l.pieces[i]
		}
	}
	return nil
}
