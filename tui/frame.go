package tui

import (
	"strings"

	"example.org/kettledrum/tui/theme"
)

// framed puts a view between the title and the lines at the foot. Between title
// and view stands what is due, for the space bar answers it from every view.
func (m *Model) framed(body func(w, h int) []string, strip bool) []string {
	foot := m.foot()
	lines := []string{m.title()}
	switch {
	case strip && len(m.moment.Cues) > 0:
		lines = append(lines, m.strip())
	case m.height >= 22 || strip:
		lines = append(lines, m.rule())
	}
	room := m.height - len(lines) - len(foot) - 1
	in := body(m.width, room)
	lines = append(lines, in[:min(len(in), room)]...)
	for len(lines) < m.height-len(foot)-1 {
		lines = append(lines, blank(m.width))
	}
	return append(append(lines, foot...), m.helpLine())
}

func (m *Model) rule() string {
	return newLine(m.th.Theme, m.width).put(theme.Track, strings.Repeat(m.th.Set.Rule, m.width)).done()
}

// strip is the most urgent cue in one line.
func (m *Model) strip() string {
	c := &m.moment.Cues[0]
	plain, bold := m.th.Band(c.Class, false), m.th.Band(c.Class, true)
	l := newLine(m.th.Theme, m.width)
	l.base = plain
	l.styled(bold, " "+m.th.Set.Classes[c.Class]+" "+theme.Word(c.Class)).to(indent)
	rest := ""
	if m.mode.view() { // elsewhere the space bar does not answer it
		rest = "space: " + answerLabel(m)
	}
	if n := len(m.moment.Cues); n > 1 {
		rest = strings.TrimSuffix(m.unseen(n-1)+", "+rest, ", ")
	}
	rest = clean(rest, m.th.ASCII)
	l.styled(bold, m.cueText(c, m.width-l.w-width(rest)-4))
	return l.to(m.width-2-width(rest)).styled(plain, rest).done()
}
