package tui

import (
	"strings"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// finder is what is typed to find a step, and which of those found is marked.
type finder struct {
	line editor
	at   int
}

// found lists the steps whose name has every word that was typed, in the order of
// the plan: those that begin with it first.
func (m *Model) found() []int {
	words := strings.Fields(fold(m.find.line.text))
	var first, rest []int
	for i := range m.state.Plan.Steps {
		name := fold(m.state.Plan.Steps[i].Do + " " + run.DishName(m.state.Plan, i))
		all := true
		for _, w := range words {
			all = all && strings.Contains(name, w)
		}
		switch {
		case !all:
		case len(words) > 0 && strings.HasPrefix(name, words[0]):
			first = append(first, i)
		default:
			rest = append(rest, i)
		}
	}
	return append(first, rest...)
}

// fold writes a text so that letters with and without accents are found alike.
func fold(s string) string { return strings.ToLower(spell(s)) }

// viewFind lists the steps found.
func (m *Model) viewFind() []string {
	return m.framed(func(w, h int) []string {
		head := newLine(m.th.Theme, w).put(theme.Title, " Find a step: ")
		typed := clean(m.find.line.text, m.th.ASCII)
		head.put(theme.Plain, cut(typed, w-head.w-2, m.th.Set.More)).put(theme.Hands, m.th.Set.Cursor)
		out := []string{head.done(), blank(w)}
		found := m.found()
		at := min(m.find.at, len(found)-1)
		if len(found) == 0 {
			return append(out, newLine(m.th.Theme, w).to(indent).put(theme.Dim, "no step has that in its name").done())
		}
		from, to, rest := window(len(found), h-len(out), at)
		for k := from; k < to; k++ {
			i := found[k]
			l := newLine(m.th.Theme, w)
			tok := theme.Plain
			if k == at {
				l.put(theme.Strong, " "+m.th.Set.Selected)
				tok = theme.Strong
			}
			status, stok := m.stepStatus(i)
			status = clean(status, m.th.ASCII)
			l.to(4).put(theme.Dim, m.stepSign(i)).to(6)
			l.put(tok, trim(run.StepName(m.state.Plan, i), w-l.w-width(status)-4, m))
			out = append(out, l.to(w-2-width(status)).put(stok, status).done())
		}
		if rest {
			out = append(out, newLine(m.th.Theme, w).to(6).put(theme.Dim, m.unseen(len(found)-to+from)).done())
		}
		return out
	}, true)
}

// openFound opens the marked one of the steps found.
func (m *Model) openFound() {
	found := m.found()
	if len(found) == 0 {
		m.tell("no step has that in its name")
		return
	}
	m.opened = found[max(0, min(m.find.at, len(found)-1))]
	m.markStep(m.opened)
	m.find = finder{}
	m.exit()
	if m.mode == Lanes {
		m.selectInLanes(m.opened)
		return
	}
	m.enter(StepView)
}
