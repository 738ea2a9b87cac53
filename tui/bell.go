package tui

import (
	"strings"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds/ring"
	"example.org/kettledrum/tui/theme"
)

// When something is heard, and what is told outside of the screen: the window's
// title, and a notice while the terminal is not in front.

// ring lets the rule of sounds/ring look at what is open. It goes by the real clock,
// also in a rehearsal: it is made for ears.
func (m *Model) ring(open []ring.Cue) []Effect {
	next, r := m.bell.Step(m.real, open)
	m.bell = next
	if r == nil {
		return nil
	}
	out := []Effect{Ring{Class: r.Class, Louder: r.Louder}}
	if m.behind && r.Class <= run.Act && len(m.moment.Cues) > 0 {
		c := &m.moment.Cues[0]
		out = append(out, Notify{theme.Word(c.Class) + " " + m.outside(c.Text)})
	}
	return out
}

// silence keeps everything quiet for a while, or ends that.
func (m *Model) silence(k KeyMsg) {
	if m.bell.Silent(k.Real) {
		m.bell = m.bell.Unhush()
		m.tell("sounds ring again")
		return
	}
	m.bell = m.bell.Hush(k.Real)
	m.tell("quiet for " + span(ring.Silence) + "; s rings again")
}

// retitle names the window after what is due, else after what comes next. It
// changes when that does, not with every second.
func (m *Model) retitle() []Effect {
	text := "Kettledrum"
	switch {
	case len(m.moment.Cues) > 0:
		c := &m.moment.Cues[0]
		text = theme.Word(c.Class) + " " + m.outside(m.shortName(c)) + " - " + text
	case m.moment.Finished:
	case len(m.moment.Next) > 0:
		u := &m.moment.Next[0]
		text = m.dayTime(u.At) + " " + m.outside(m.shortName(&u.Cue)) + " - " + text
	}
	if text == m.window {
		return nil
	}
	m.window = text
	return []Effect{Title{text}}
}

// longestOutside is how many cells of a text go to where its room is not known.
const longestOutside = 80

// outside is a text for outside of the screen: one line, cleaned, not long.
func (m *Model) outside(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return cut(clean(s, m.th.ASCII), longestOutside, m.th.Set.More)
}
