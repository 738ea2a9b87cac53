package tui

import (
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// The minutes in which a cook puts in, takes out, stirs or sets the oven.

// touchAt is when a touch is or was, as projected, and whether it is over; ok is false
// for one of a step that is left out.
func (m *Model) touchAt(t plan.Touch) (at time.Time, done, ok bool) {
	if t.What == plan.TouchSet {
		for _, s := range m.moment.Sets {
			if s.Oven == t.Oven && s.For == t.Step && !s.Off {
				return s.At, false, true
			}
		}
		return t.At, true, !t.At.After(m.now)
	}
	pr := m.moment.Projection
	if t.Step < 0 || t.Step >= len(pr.Start) || pr.Start[t.Step].IsZero() {
		return at, false, false
	}
	status := m.state.Steps[t.Step].Status
	switch t.What {
	case plan.TouchStart:
		at, done = pr.Start[t.Step], status != plan.Ahead
	case plan.TouchEnd:
		at, done = pr.End[t.Step], status == plan.Done
	default:
		at = t.At.Add(pr.Start[t.Step].Sub(m.state.Timetable.Slots[t.Step].Start))
		done = status == plan.Done || !at.After(m.now)
	}
	return at, done, status != plan.Skipped
}

// touchPieces are the touches of a cook, to be drawn in a lane.
func (m *Model) touchPieces(cook int) []piece {
	var out []piece
	for _, t := range m.state.Timetable.Touches {
		at, _, ok := m.touchAt(t)
		if t.Cook != cook || !ok {
			continue
		}
		p := piece{step: t.Step, from: at}
		switch t.What {
		case plan.TouchStart:
			p.how = pieceIn
		case plan.TouchEnd:
			p.how, p.from = pieceOut, at.Add(-time.Minute) // the last minute of the step
		case plan.TouchRemind:
			p.how = pieceStir
		case plan.TouchSet:
			p.how = pieceDial
		}
		p.to = p.from.Add(time.Minute)
		if t.Step >= 0 {
			p.name = m.state.Plan.Steps[t.Step].Do
		}
		out = append(out, p)
	}
	return out
}

// fillGaps puts touches between the pieces of the lanes, each into the first lane that
// has room for it, and those that none has room for into lanes of their own.
func fillGaps(lanes []lane, touches []piece) []lane {
	var left []piece
	for _, t := range touches {
		k := slices.IndexFunc(lanes, func(l lane) bool {
			return !slices.ContainsFunc(l.pieces, func(p piece) bool { return p.from.Before(t.to) && t.from.Before(p.to) })
		})
		if k < 0 {
			left = append(left, t)
			continue
		}
		lanes[k].pieces = append(lanes[k].pieces, t)
	}
	for k := range lanes {
		slices.SortStableFunc(lanes[k].pieces, func(a, b piece) int { return a.from.Compare(b.from) })
	}
	return append(lanes, packed("", left)...)
}

// touch reports whether a piece is a touch.
func (k pieceKind) touch() bool { return k >= pieceIn }
