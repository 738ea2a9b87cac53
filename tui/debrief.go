package tui

import (
	"context"
	"fmt"
	"strings"

	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/tui/theme"
)

// The debrief of a rehearsal: once all is served it is worked out beside the screen
// and shown; then the dinner is played again to see what to change, and that is added.

// lookedBack is what the screen knows of it.
type lookedBack struct {
	sought   bool
	final    bool // with what to change
	sections []debrief.Section
}

// seekDebrief asks for the debrief once, when all is served.
func (m *Model) seekDebrief() []Effect {
	switch {
	case !m.rehearsing:
	case !m.moment.Finished: // a serve was taken back
		m.debrief = lookedBack{}
	case !m.debrief.sought:
		m.debrief.sought = true
		return []Effect{SeekDebrief{}}
	}
	return nil
}

// takeDebrief shows it where the cook is not in the middle of something.
func (m *Model) takeDebrief(msg DebriefMsg) []Effect {
	if !m.debrief.sought { // a serve was taken back meanwhile
		return nil
	}
	first := m.debrief.sections == nil && msg.Sections != nil
	if msg.Sections != nil {
		m.debrief.sections = msg.Sections
	}
	m.debrief.final = msg.Final
	if first && m.mode.view() {
		m.openDebrief()
	}
	if msg.Final {
		return nil
	}
	return []Effect{SeekDebrief{Change: true}}
}

func (m *Model) openDebrief() {
	m.helpTop = 0
	m.enter(Debrief)
}

// lookBack works out what a SeekDebrief asks for.
func (o *Options) lookBack(ctx context.Context, e SeekDebrief) DebriefMsg {
	switch {
	case e.Change && o.Improve != nil:
		return DebriefMsg{Sections: o.Improve(ctx), Final: true}
	case e.Change || o.Debrief == nil:
		return DebriefMsg{Final: true}
	}
	return DebriefMsg{Sections: o.Debrief()}
}

func offDebrief(m *Model) string {
	switch {
	case m.debrief.sections != nil:
		return ""
	case m.moment.Finished:
		return "how it went is being worked out"
	}
	return "how it went is told once everything is served"
}

// debriefLines are the sections, wrapped.
func (m *Model) debriefLines(w int) []string {
	sections := m.debrief.sections
	if !m.debrief.final {
		sections = append(sections[:len(sections):len(sections)], debrief.Section{Title: "What to change",
			Lines: []debrief.Line{{Text: "the dinner is being played again to find out" + m.th.Set.More}}})
	}
	return m.sectionLines(sections, w)
}

// sectionLines are sections, wrapped, each with its title.
func (m *Model) sectionLines(sections []debrief.Section, w int) (out []string) {
	for _, s := range sections {
		if len(out) > 0 {
			out = append(out, blank(w))
		}
		out = append(out, newLine(m.th.Theme, w).put(theme.Title, " "+s.Title).done())
		for _, l := range s.Lines {
			indent, tok := 3, theme.Plain
			if l.Under {
				indent, tok = 5, theme.Dim
			}
			for _, part := range strings.Split(l.Text, "\n") {
				for _, text := range m.th.wrap(part, w-indent-1, 6) {
					out = append(out, newLine(m.th.Theme, w).to(indent).put(tok, text).done())
				}
			}
		}
	}
	return out
}

// viewDebrief draws it into the whole screen.
func (m *Model) viewDebrief() []string {
	return m.framed(func(w, h int) []string {
		body := m.debriefLines(w)
		top := max(0, min(m.helpTop, len(body)-h+1))
		head := newLine(m.th.Theme, w).put(theme.Title, " How it went")
		if len(body) > h-1 {
			head.put(theme.Dim, fmt.Sprintf("   lines %d to %d of %d: up and down", top+1, min(len(body), top+h-1), len(body)))
		}
		return append([]string{head.done()}, body[top:min(len(body), top+max(0, h-1))]...)
	}, true)
}

// scrollDebrief moves by a line.
func (m *Model) scrollDebrief(step int) {
	m.helpTop = max(0, min(m.helpTop+step, len(m.debriefLines(m.width))-1))
}
