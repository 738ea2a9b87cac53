package tui

import (
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// The step view, and the part of it that stands beneath the lanes.

// viewStep draws the opened step.
func (m *Model) viewStep(w, h int) []string {
	i := m.opened
	if i < 0 || i >= len(m.state.Plan.Steps) {
		return []string{newLine(m.th.Theme, w).to(indent).put(theme.Plain, "No step is opened").done()}
	}
	out := []string{blank(w), m.stepHead(i, w), blank(w)}
	facts := m.stepFacts(i)
	if h < len(facts)+4 { // close up before anything is lost
		out = out[1:2]
	}
	for _, f := range facts {
		for k, s := range m.th.wrapLines(f.text, w-indent-3, 8) {
			l := newLine(m.th.Theme, w)
			if k == 0 {
				l.put(theme.Dim, " "+f.label)
			}
			out = append(out, l.to(indent).put(f.tok, s).done())
		}
	}
	if h-len(out) > mostChart+1 {
		out = append(out, blank(w))
	}
	out = append(out, m.heatChart(i, w, h-len(out))...)
	if len(out) > h {
		out = append(out[:h-1], newLine(m.th.Theme, w).to(indent).put(theme.Dim, m.th.Set.More+" a higher terminal shows the rest").done())
	}
	return out
}

// stepHead is a step's name, and how it stands.
func (m *Model) stepHead(i, w int) string {
	status, tok := m.stepStatus(i)
	status = clean(status, m.th.ASCII)
	l := newLine(m.th.Theme, w).put(theme.Plain, " "+m.stepSign(i)).to(3)
	l.put(theme.Title, trim(run.StepName(m.state.Plan, i), w-l.w-width(status)-4, m))
	return l.to(w-2-width(status)).put(tok, status).done()
}

// stepSign is the symbol of how a step stands.
func (m *Model) stepSign(i int) string {
	p, ok := m.pieceOf(i)
	switch {
	case !ok:
		return m.th.Set.Dot
	case p.how == pieceDone:
		return m.th.Set.Done
	case p.how == pieceOver:
		return m.th.Set.Over
	case p.how == pieceAssumed:
		return m.th.Set.Assumed
	case p.how == pieceGoing:
		return m.th.Set.Going
	}
	return m.th.Set.Classes[run.Soon]
}

// laneStep tells of the step selected in the lanes, in n lines.
func (m *Model) laneStep(w, n int) []string {
	i := m.lanes.step
	if i < 0 || i >= len(m.state.Plan.Steps) {
		return nil
	}
	out := []string{m.stepHead(i, w)}
	when := m.stepWhen(i)
	for _, more := range []string{m.stepPlace(i), m.mayWait(i)} {
		if more != "" {
			when += ", " + more
		}
	}
	for _, f := range []fact{{"WHEN", when, theme.Plain}, {"AFTER", m.waitsForStep(i), theme.Plain}, {"THEN", m.waitForIt(i), theme.Plain}} {
		if f.text == "" {
			f.text = "nothing"
		}
		l := newLine(m.th.Theme, w).put(theme.Dim, " "+f.label).to(indent)
		out = append(out, l.put(f.tok, cut(clean(f.text, m.th.ASCII), w-l.w-1, m.th.Set.More)).done())
	}
	return out[:min(n, len(out))]
}
