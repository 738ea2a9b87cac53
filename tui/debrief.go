package tui

import (
	"context"
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/run"
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

// NobodyAnswers is how long after its last course a rehearsal that runs through ends by
// itself: what nobody answered then counts as gone as planned.
const NobodyAnswers = 15 * time.Minute

// endUnanswered ends a rehearsal that runs through and that nobody answers any more: its
// clock stands, and all is answered as planned. A cook who takes that back, or could not
// have it written, is not overruled; one who then goes on with the dinner is waited for
// again.
func (m *Model) endUnanswered(i Instants) []Effect {
	switch over := m.drifted(NobodyAnswers); {
	case !over && !m.moment.Finished:
		m.endedAt = time.Time{}
	case over && m.endedAt.IsZero() && !m.hold && m.writing == nil && (m.mode.view() || m.mode == List):
		m.endedAt = m.now
		return m.record("nobody answered: all as planned", KeyMsg{Instants: i}, run.AllAsPlanned(m.moment)...)
	}
	return nil
}

// drifted reports whether so long ago a rehearsal has gone to its end without anybody
// saying so.
func (m *Model) drifted(ago time.Duration) bool {
	if !m.rehearsing || m.moment.Finished || len(m.moment.Unconfirmed) == 0 {
		return false
	}
	for i := range m.moment.Courses {
		if m.now.Sub(m.courseTime(&m.moment.Courses[i])) < ago {
			return false
		}
	}
	return true
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
	case m.drifted(run.UnconfirmedAfter):
		return "how it went is told once all is answered: a says that all went as planned"
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

// debriefPage is how many lines of it are shown at once, and debriefTop the first.
func (m *Model) debriefPage() int {
	n := m.height - 4 - len(m.foot())
	if m.height >= airy {
		n--
	}
	return max(1, n)
}

// airy is from which height on a blank line stands below the title.
const airy = 22

func (m *Model) debriefTop(lines int) int { return max(0, min(m.helpTop, lines-m.debriefPage())) }

// readOn shows the next page, or goes back where there is none.
func (m *Model) readOn() {
	n := len(m.debriefLines(m.width))
	if m.debriefTop(n)+m.debriefPage() >= n {
		m.exit()
		return
	}
	m.helpTop = m.debriefTop(n) + max(1, m.debriefPage()-1)
}

func readOnLabel(m *Model) string {
	if n := len(m.debriefLines(m.width)); m.debriefTop(n)+m.debriefPage() >= n {
		return "back"
	}
	return "read on"
}

// viewDebrief draws it into the whole screen.
func (m *Model) viewDebrief() []string {
	return m.framed(func(w, h int) []string {
		body := m.debriefLines(w)
		top := m.debriefTop(len(body))
		head := newLine(m.th.Theme, w).put(theme.Title, " How it went")
		if len(body) > m.debriefPage() {
			head.put(theme.Dim, fmt.Sprintf("   lines %d to %d of %d: up and down", top+1, min(len(body), top+m.debriefPage()), len(body)))
		}
		out := []string{head.done()}
		if m.height >= airy {
			out = append(out, blank(w))
		}
		return append(out, body[top:min(len(body), top+m.debriefPage())]...)
	}, true)
}

// scrollDebrief moves by a line.
func (m *Model) scrollDebrief(step int) {
	n := len(m.debriefLines(m.width))
	m.helpTop = max(0, min(m.debriefTop(n)+step, n-m.debriefPage()))
}
