package tui

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// Moving about in the lanes view.

// laneLabel is how many cells a lane's name takes, with what is before and after it.
func laneLabel(w int) int {
	switch {
	case w < 72:
		return 13
	case w < wideFrom:
		return 16
	}
	return 22
}

// span is the stretch of time that the view shows: its first instant and how many
// minutes a cell stands for.
func (m *Model) lanesSpan(w int) (from time.Time, perCell time.Duration) {
	cells := max(1, w-laneLabel(w)-1)
	begin := m.now
	if first := m.firstOfDay(); first.After(m.now) {
		begin = first
	}
	last := m.lastOfDay()
	minutes := zooms[m.lanes.zoom]
	if minutes == 0 {
		minutes = zooms[len(zooms)-1]
		for _, z := range zooms[1:] {
			if d := time.Duration(z) * time.Minute; begin.Add(time.Duration(cells*9/10) * d).After(last) {
				minutes = z
				break
			}
		}
	}
	perCell = time.Duration(minutes) * time.Minute
	// A tenth of what is shown is past. Cells keep to whole multiples, so that
	// nothing shifts by parts of a cell as time goes on.
	from = begin.Add(-time.Duration(cells/10)*perCell + m.lanes.shift).Truncate(perCell)
	return from, perCell
}

// firstOfDay and lastOfDay bound what is left to do today, or on the next day on
// which there is anything.
func (m *Model) firstOfDay() time.Time {
	first := m.now
	for i, at := range m.moment.Projection.Start {
		if m.state.Steps[i].Status == plan.Begun {
			return m.now
		}
		if m.state.Steps[i].Status == plan.Ahead && !at.IsZero() && (first.Equal(m.now) || at.Before(first)) {
			first = at
		}
	}
	return first
}

func (m *Model) lastOfDay() time.Time {
	day := m.firstOfDay()
	last := day
	same := func(at time.Time) bool { return at.Sub(day) < 18*time.Hour }
	for i, at := range m.moment.Projection.Start {
		if end := m.moment.Projection.End[i]; m.state.Steps[i].Status != plan.Skipped && same(at) && same(end) && end.After(last) {
			last = end
		}
	}
	for i := range m.moment.Courses {
		if at := m.courseTime(&m.moment.Courses[i]); same(at) && at.After(last) {
			last = at
		}
	}
	return last
}

// openLanes shows the lanes with the marked step selected.
func (m *Model) openLanes() {
	step := m.opened
	if m.mode != StepView {
		step = -1
		if r, ok := m.chosen(); ok {
			step = r.stepOf()
		}
	}
	if step < 0 && len(m.moment.Next) > 0 {
		step = m.moment.Next[0].Cue.Step
	}
	opened := m.mode == StepView // that step is wanted, wherever it is
	m.enter(Lanes)
	m.lanes.shift = 0
	m.selectInLanes(step)
	if !opened && m.lanes.shift != 0 {
		m.lanesNow()
	}
}

// selectInLanes selects a step, in the first lane that has it.
func (m *Model) selectInLanes(step int) {
	rows := m.lanesOf()
	m.lanes.step = -1
	for r := range rows {
		p := rows[r].of(step)
		if step < 0 || p == nil || p.how.touch() && m.lanes.step >= 0 {
			continue
		}
		m.lanes.row, m.lanes.step = r, step
		if !p.how.touch() { // a lane that has all of it, rather than where it is put in
			break
		}
	}
	if m.lanes.step < 0 {
		m.laneBelow(rows, -1, 1)
	}
	m.bringIntoView()
}

// laneBelow selects the next lane in a direction that has a step, and of it the
// one nearest to the one selected.
func (m *Model) laneBelow(rows []lane, from, dir int) {
	at := m.now
	if m.lanes.step >= 0 {
		if p, ok := m.pieceOf(m.lanes.step); ok {
			at = p.from.Add(p.to.Sub(p.from) / 2)
		}
	}
	for r := from + dir; r >= 0 && r < len(rows); r += dir {
		if rows[r].hasStep() {
			m.lanes.row, m.lanes.step = r, rows[r].nearest(at)
			return
		}
	}
}

// moveInLanes moves the selection: to another lane, or along one.
func (m *Model) moveInLanes(a Action) {
	rows := m.lanesOf()
	m.lanes.row = max(0, min(m.lanes.row, len(rows)-1))
	if m.lanes.step < 0 || rows[m.lanes.row].of(m.lanes.step) == nil {
		m.selectInLanes(m.lanes.step) // the lanes have changed under it
		rows = m.lanesOf()
	}
	switch a {
	case SelectUp:
		m.laneBelow(rows, m.lanes.row, -1)
	case SelectDown:
		m.laneBelow(rows, m.lanes.row, 1)
	case Earlier, Later:
		var along []int
		for _, p := range rows[m.lanes.row].pieces {
			if p.step >= 0 && !slices.Contains(along, p.step) { // it may be put in and taken out
				along = append(along, p.step)
			}
		}
		k := slices.Index(along, m.lanes.step)
		if a == Later {
			k++
		} else {
			k--
		}
		if k < 0 || k >= len(along) {
			m.tell("no further step in this lane: [ and ] move the hours")
			return
		}
		m.lanes.step = along[k]
	}
	m.bringIntoView()
}

// bringIntoView moves the hours so that the selected step is among them.
func (m *Model) bringIntoView() {
	if m.lanes.step < 0 {
		return
	}
	p, ok := m.pieceOf(m.lanes.step)
	if !ok {
		return
	}
	from, per := m.lanesSpan(m.width)
	cells := max(1, m.width-laneLabel(m.width)-1)
	to := from.Add(time.Duration(cells) * per)
	switch {
	case !p.to.After(m.now) && p.to.After(from): // over, and its end is to be seen
	case !p.from.After(m.now) && p.to.After(m.now): // going: now is to be seen
		m.lanes.shift = 0
	case !p.to.After(from) || p.from.Before(from) && p.to.Before(to):
		m.lanes.shift -= from.Sub(p.from) + time.Duration(cells/10)*per
	case !p.from.Before(to):
		m.lanes.shift += p.from.Sub(to) + time.Duration(cells/2)*per
	}
}

// shiftLanes moves the hours by half of what is shown; zoomLanes shows more or
// fewer of them.
func (m *Model) shiftLanes(later bool) {
	_, per := m.lanesSpan(m.width)
	by := time.Duration(max(1, (m.width-laneLabel(m.width)-1)/2)) * per
	if !later {
		by = -by
	}
	if (m.lanes.shift + by).Abs() > longestShift {
		m.tell("the hours end here")
		return
	}
	m.lanes.shift += by
}

// lanesNow brings now into view, and selects what is nearest to it in the lane.
func (m *Model) lanesNow() {
	m.lanes.shift = 0
	rows := m.lanesOf()
	m.lanes.row = max(0, min(m.lanes.row, len(rows)-1))
	if i := rows[m.lanes.row].nearest(m.now); i >= 0 {
		m.lanes.step = i
	}
}

// longestShift is how far the hours can be moved: make-ahead goes back months at
// the most.
const longestShift = 400 * 24 * time.Hour

func (m *Model) zoomLanes(in bool) {
	_, per := m.lanesSpan(m.width)
	at := slices.Index(zooms[1:], int(per/time.Minute)) + 1
	switch {
	case in && at <= 1:
		m.tell("a cell is a minute already")
	case in:
		m.lanes.zoom = at - 1
	case at >= len(zooms)-1:
		m.tell("a cell is an hour already")
	default:
		m.lanes.zoom = at + 1
	}
}
