package tui

import (
	"fmt"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// The log tells what was told so far, the last at the bottom, and below it what is
// broken as things go.

// viewLog draws it into the whole screen.
func (m *Model) viewLog() []string {
	return m.framed(func(w, h int) []string {
		out := []string{newLine(m.th.Theme, w).put(theme.Title, " What was told").done(), blank(w)}
		body := m.logLines(w)
		room := max(1, h-len(out))
		end := max(min(room, len(body)), len(body)-m.helpTop)
		from := max(0, end-room)
		if from > 0 {
			out[0] = newLine(m.th.Theme, w).put(theme.Title, " What was told").
				put(theme.Dim, fmt.Sprintf("   %d lines before these: up and down", from)).done()
		}
		return append(out, body[from:end]...)
	}, true)
}

// logLines are the events in the cook's words: when, what; what was taken back is
// marked so.
func (m *Model) logLines(w int) []string {
	undone := map[uint64]bool{}
	for i := len(m.state.Events) - 1; i >= 0; i-- {
		if e := &m.state.Events[i]; e.Kind == run.Undone && !undone[e.Seq] {
			undone[e.Undoes] = true
		}
	}
	var out []string
	for i := range m.state.Events {
		e := &m.state.Events[i]
		text, tok := m.logText(e), theme.Plain
		switch {
		case undone[e.Seq], e.Cause != 0 && undone[e.Cause]:
			text, tok = text+", taken back", theme.Dim
		case e.Kind == run.Adopted, e.Kind == run.Opened, e.Kind == run.Undone:
			tok = theme.Note
		}
		if late := e.Noted.Sub(e.At); late >= logLate && e.Kind != run.Opened {
			text += ", told " + m.dayTime(e.Noted)
		}
		for k, s := range m.th.wrapLines(text, w-dayCells-6, 4) {
			l := newLine(m.th.Theme, w)
			if k == 0 {
				l.put(theme.Plain, "  ").put(theme.Dim, m.gridTime(e.At))
			}
			out = append(out, l.to(dayCells+4).put(tok, s).done())
		}
	}
	return append(out, m.logBroken(w)...)
}

// logBroken are the rules that will not be kept as things go, in full: the main
// screen has room for the first of them only.
func (m *Model) logBroken(w int) []string {
	var out []string
	for i, b := range m.broken() {
		if i == 0 {
			out = append(out, blank(w), newLine(m.th.Theme, w).put(theme.Title, " Broken, as things go").done(), blank(w))
		}
		for k, s := range m.th.wrapLines(b.Text, w-dayCells-6, 4) {
			l := newLine(m.th.Theme, w)
			if k == 0 {
				l.put(theme.Plain, "  ").put(theme.Dim, m.gridTime(b.At))
			}
			out = append(out, l.to(dayCells+4).put(theme.Late, s).done())
		}
	}
	return out
}

// logLate is how much later than it happened something was told for the log to say so.
const logLate = 60e9

func (m *Model) logText(e *run.Event) string {
	switch e.Kind {
	case run.Opened:
		return "the run was opened"
	case run.Adopted:
		if len(e.Why) == 0 {
			return "a timetable"
		}
		text := "another timetable"
		for _, w := range e.Why {
			text += "\n" + w
		}
		return text
	case run.Undone:
		for i := range m.state.Events {
			if o := &m.state.Events[i]; o.Seq == e.Undoes {
				return "taken back: " + said(m.state.Plan, *o)
			}
		}
	}
	return said(m.state.Plan, *e)
}

// scrollLog moves by a line; downwards is towards the end.
func (m *Model) scrollLog(down bool) {
	if down {
		m.helpTop = max(0, m.helpTop-1)
		return
	}
	m.helpTop = min(m.helpTop+1, max(0, len(m.logLines(m.width))-1))
}
