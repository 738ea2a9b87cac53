package tui

import (
	"cmp"
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// The rules that will not be kept, and what another timetable moved.

// broken are the rules that will not be kept, as things go, the gravest first; that
// a course is late stands with the courses.
func (m *Model) broken() []plan.Break {
	var out []plan.Break
	for _, b := range m.moment.Breaks {
		if b.Kind.Hard() && b.Kind != plan.BreakLate {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Break) int {
		return cmp.Or(gravity(a.Kind)-gravity(b.Kind), b.Minutes-a.Minutes, a.At.Compare(b.At))
	})
	return out
}

// gravity orders broken rules: what may make somebody ill or spoil the food, then
// what cannot be done as it stands, then what the cook can make do with.
func gravity(k plan.BreakKind) int {
	switch k {
	case plan.BreakKeep:
		return 0
	case plan.BreakLength, plan.BreakOven, plan.BreakOrder, plan.BreakGap:
		return 1
	case plan.BreakHands, plan.BreakSpace, plan.BreakBurner, plan.BreakTool, plan.BreakCold:
		return 2
	}
	return 3
}

func (m *Model) viewBroken(w, h int) []string {
	bs := m.broken()
	from, to, rest := window(len(bs), h, -1)
	var out []string
	for _, b := range bs[from:to] {
		l := newLine(m.th.Theme, w).put(theme.Plain, "  ")
		// Only its end may go: what is broken stands after the dots of the name.
		out = append(out, l.put(theme.Late, cut(clean(b.Text, m.th.ASCII), w-l.w-1, m.th.Set.More)).done())
	}
	if rest {
		out = append(out, newLine(m.th.Theme, w).put(theme.Late, "  "+m.unseen(len(bs)-to)+": g shows all").done())
	}
	return out
}

// moved is what the last change of the timetable moved, while that is news.
func (m *Model) moved() []string {
	if c := m.moment.Cues; len(c) > 0 && c[0].Class == run.Note {
		return nil // stands in the block on top
	}
	if m.state.AdoptedAt.IsZero() || m.now.Sub(m.state.AdoptedAt) > MovedStays {
		return nil
	}
	return m.state.Why
}

func (m *Model) viewMoved(w, h int) []string {
	var out []string
	for i, s := range m.moved() {
		if len(out) == h {
			break
		}
		l := newLine(m.th.Theme, w).put(theme.Plain, "  ")
		if i == 0 {
			s = m.dayTime(m.state.AdoptedAt) + "  " + s
		}
		out = append(out, l.put(theme.Note, trim(s, w-l.w-1, m)).done())
	}
	return out
}
