package tui

import (
	"slices"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// Cautions about what is due or going.

// cautions are those of the timetable about what is due or going now.
func (m *Model) cautions() []plan.Caution {
	if m.state.Timetable == nil {
		return nil
	}
	var out []plan.Caution
	for _, c := range m.state.Timetable.Cautions {
		now := slices.ContainsFunc(m.moment.Cues, func(q run.Cue) bool { return q.Step == c.Step && c.Step >= 0 }) ||
			slices.ContainsFunc(m.moment.Going, func(g run.Going) bool { return g.Step == c.Step && c.Step >= 0 })
		if now {
			out = append(out, c)
		}
	}
	return out
}

// mostCaution is how many lines a caution takes at most.
const mostCaution = 4

// cautionLines are the cautions in lines of a pane w cells wide, each with the step
// that it is about.
func (m *Model) cautionLines(w int) []string {
	var out []string
	for _, c := range m.cautions() {
		out = append(out, m.th.wrap(m.state.Plan.Steps[c.Step].Do+": "+c.Text, w-3, mostCaution)...)
	}
	return out
}

func (m *Model) viewCautions(w, h int) []string {
	all := m.cautionLines(w)
	from, to, rest := window(len(all), h, -1)
	var out []string
	for _, s := range all[from:to] {
		out = append(out, newLine(m.th.Theme, w).put(theme.Plain, "  ").put(theme.Late, s).done())
	}
	if rest {
		out = append(out, newLine(m.th.Theme, w).put(theme.Late, "  "+m.unseen(len(all)-to)+": open the step to read all").done())
	}
	return out
}
