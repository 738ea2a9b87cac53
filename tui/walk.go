package tui

import (
	"fmt"

	"example.org/kettledrum/plan/walk"
	"example.org/kettledrum/tui/theme"
)

// The walk-through: each cue in its turn, without a clock. What it asks for is ticked
// off; what was not is listed at the end.

// walking is where the cook is in it.
type walking struct {
	stops []walk.Stop
	ticks walk.Ticks
	at    int // the stop
	item  int // the marked thing of it
}

// stop is the one that is shown.
func (m *Model) stop() *walk.Stop {
	if m.walk.at < len(m.walk.stops) {
		return &m.walk.stops[m.walk.at]
	}
	return &walk.Stop{}
}

// onWalk reports whether this is a walk-through and no rehearsal on a clock.
func (m *Model) onWalk() bool { return len(m.walk.stops) > 0 }

// goTo shows a stop, its first thing marked that is not ticked; after the last, what
// is missing.
func (m *Model) goTo(at int) {
	if at >= len(m.walk.stops) {
		m.helpTop = 0
		m.enter(WalkEnd)
		return
	}
	m.walk.at = max(0, at)
	m.walk.item = max(0, m.open(-1))
}

// open is the next thing after one that is not ticked, else the first such; -1: none.
func (m *Model) open(after int) int {
	first := -1
	for i, x := range m.stop().Things {
		if m.walk.ticks.Has(x) {
			continue
		}
		if i > after {
			return i
		}
		if first < 0 {
			first = i
		}
	}
	return first
}

// tick is what the space bar does: the marked thing is there, or, where all is, the
// next cue.
func (m *Model) tick() {
	if m.open(-1) < 0 {
		m.goTo(m.walk.at + 1)
		return
	}
	x := m.stop().Things[m.walk.item]
	m.walk.ticks = m.walk.ticks.With(x, !m.walk.ticks.Has(x))
	if next := m.open(m.walk.item); next >= 0 && m.walk.ticks.Has(x) {
		m.walk.item = next
	}
}

// tickAll ticks all things of the stop and goes on.
func (m *Model) tickAll() {
	for _, x := range m.stop().Things {
		m.walk.ticks = m.walk.ticks.With(x, true)
	}
	m.goTo(m.walk.at + 1)
}

// untick says that the marked thing is not there after all.
func (m *Model) untick() { m.walk.ticks = m.walk.ticks.With(m.stop().Things[m.walk.item], false) }

func offUntick(m *Model) string {
	if len(m.stop().Things) == 0 || !m.walk.ticks.Has(m.stop().Things[m.walk.item]) {
		return "the marked thing is not ticked"
	}
	return ""
}

func offWalkBack(m *Model) string {
	if m.walk.at == 0 {
		return "this is the first cue"
	}
	return ""
}

func tickLabel(m *Model) string {
	switch {
	case m.open(-1) < 0 && m.walk.at+1 == len(m.walk.stops):
		return "what is missing"
	case m.open(-1) < 0:
		return "next cue"
	case m.walk.ticks.Has(m.stop().Things[m.walk.item]):
		return "not there"
	}
	return "it is there"
}

func tickAllLabel(m *Model) string {
	if m.open(-1) < 0 {
		return "next cue"
	}
	return "all there"
}

// walkTitle is the top line: how far it is, whose dinner, how much was found.
func (m *Model) walkTitle() string {
	l := newLine(m.th.Theme, m.width).put(theme.Plain, " ").put(theme.Strong, "Walk-through").put(theme.Plain, "   ")
	all := walk.All(m.walk.stops)
	right := fmt.Sprintf("%d of %d there", all-len(m.walk.ticks.Missing(m.walk.stops)), all)
	room := m.width - l.w - width(right) - 3
	l.put(theme.Title, cut(clean(m.state.Plan.Title, m.th.ASCII), max(0, room), m.th.Set.More))
	return l.to(m.width-1-width(right)).put(theme.Dim, right).done()
}

// walked puts a body under that title, and below it what is said, and the keys.
func (m *Model) walked(body func(w, h int) []string) []string {
	foot := m.foot()
	lines := []string{m.walkTitle(), m.rule()}
	room := max(0, m.height-len(lines)-len(foot)-1)
	in := body(m.width, room)
	lines = append(lines, in[:min(len(in), room)]...)
	for len(lines) < m.height-len(foot)-1 {
		lines = append(lines, blank(m.width))
	}
	return append(append(lines, foot...), m.helpLine())
}

// viewWalk draws the stop.
func (m *Model) viewWalk() []string {
	return m.walked(func(w, h int) []string {
		s := m.stop()
		at := m.dayTime(s.At)
		left := width(at) + 3
		var out []string
		for i, text := range m.th.wrap(s.Text, w-left-1, 3) {
			l := newLine(m.th.Theme, w)
			if i == 0 {
				l.put(theme.Plain, " ").put(theme.Hands, at)
			}
			out = append(out, l.to(left).put(theme.Strong, text).done())
		}
		out = append(out, newLine(m.th.Theme, w).to(left).put(theme.Dim, fmt.Sprintf("cue %d of %d", m.walk.at+1, len(m.walk.stops))).done(), blank(w))
		ask := "Have you got"
		if len(s.Things) == 0 {
			ask = "Nothing to have ready for it."
		}
		out = append(out, newLine(m.th.Theme, w).to(left).put(theme.Plain, ask).done())
		var next []string
		if k := m.walk.at + 1; k < len(m.walk.stops) {
			n := &m.walk.stops[k]
			for _, text := range m.th.wrap("Then "+m.dayTime(n.At)+" "+n.Text, w-left-1, 2) {
				next = append(next, newLine(m.th.Theme, w).to(left).put(theme.Dim, text).done())
			}
		}
		body, from, to := m.thingLines(s, w, left)
		room := max(1, h-len(out)-len(next)-1)
		top := max(0, min(max(from-room/3, to-room), len(body)-room))
		out = append(out, body[top:min(len(body), top+room)]...)
		return append(append(out, blank(w)), next...)
	})
}

// thingLines are the things of a stop with their ticks, and the lines of the marked one.
func (m *Model) thingLines(s *walk.Stop, w, left int) (body []string, from, to int) {
	for i, x := range s.Things {
		box, tok := "[ ]", theme.Plain
		if m.walk.ticks.Has(x) {
			box, tok = "[x]", theme.Done
		}
		if i == m.walk.item {
			from = len(body)
		}
		for k, text := range m.th.wrap(x.Text, w-left-5, 2) {
			l := newLine(m.th.Theme, w)
			if k == 0 {
				if i == m.walk.item {
					l.to(left-2).put(theme.Strong, m.th.Set.Selected)
				}
				l.to(left).put(tok, box)
			}
			l.to(left + 4)
			if i == m.walk.item && tok == theme.Plain {
				l.put(theme.Strong, text)
			} else {
				l.put(tok, text)
			}
			body = append(body, l.done())
		}
		if i == m.walk.item {
			to = len(body)
		}
	}
	return body, from, to
}

// viewWalkEnd draws what is missing.
func (m *Model) viewWalkEnd() []string {
	return m.walked(func(w, h int) []string {
		missing := m.walk.ticks.Missing(m.walk.stops)
		head := newLine(m.th.Theme, w).put(theme.Title, " Everything is there.")
		if n := len(missing); n > 0 {
			head = newLine(m.th.Theme, w).put(theme.Title, " To find before it begins")
		}
		var body []string
		for _, x := range missing {
			for k, text := range m.th.wrap(x.Text, w-6, 2) {
				l := newLine(m.th.Theme, w)
				if k == 0 {
					l.put(theme.Plain, " [ ]")
				}
				body = append(body, l.to(5).put(theme.Strong, text).done())
			}
			for _, text := range m.th.wrap("for "+m.dayTime(x.For.At)+" "+x.For.Text, w-6, 2) {
				body = append(body, newLine(m.th.Theme, w).to(5).put(theme.Dim, text).done())
			}
		}
		top := max(0, min(m.helpTop, len(body)-h+2))
		if len(body) > h-2 {
			head.put(theme.Dim, fmt.Sprintf("   lines %d to %d of %d: up and down", top+1, min(len(body), top+h-2), len(body)))
		}
		return append([]string{head.done(), blank(w)}, body[top:min(len(body), top+max(0, h-2))]...)
	})
}

// moveInWalk marks another thing, or scrolls what is missing.
func (m *Model) moveInWalk(step int) {
	if m.mode == WalkEnd {
		m.helpTop = max(0, min(m.helpTop+step, 4*walk.All(m.walk.stops)))
		return
	}
	m.walk.item = max(0, min(m.walk.item+step, len(m.stop().Things)-1))
}
