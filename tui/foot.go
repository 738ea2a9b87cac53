package tui

import (
	"fmt"

	"example.org/kettledrum/tui/theme"
)

// What stands above the help line.

// foot is what stands above the help line: a question, what is being typed, or
// a message.
func (m *Model) foot() []string {
	var out []string
	add := func(l *line) { out = append(out, l.done()) }
	start := func() *line { return newLine(m.th.Theme, m.width).put(theme.Plain, " ") }
	switch m.mode {
	case Confirm:
		for _, s := range m.th.wrap(m.confirm.text, m.width-2, 2) {
			add(start().put(theme.Strong, s))
		}
		if m.confirm.hint != "" {
			for _, s := range m.th.wrapLines(m.confirm.hint, m.width-2, 2) {
				add(start().put(theme.Dim, s))
			}
		}
		if m.message.text != "" {
			add(start().put(theme.Late, m.message.text))
		}
		return out
	case Prompt:
		// The hint says what to type: the title gives way to it.
		room := m.width - 2 - 2 - width(clean(m.prompt.hint, m.th.ASCII))
		for _, s := range m.th.wrap(m.prompt.title, max(8, room), 1) {
			add(start().put(theme.Strong, s).put(theme.Dim, "  "+m.prompt.hint))
		}
		typed := clean(m.prompt.line.text, m.th.ASCII)
		for width(typed) > m.width-6 { // keep the end, where the cursor is
			_, n := firstRune(typed)
			typed = typed[n:]
		}
		add(start().put(theme.Hands, m.th.Set.Selected+" ").put(theme.Plain, typed).put(theme.Hands, m.th.Set.Cursor))
		if m.message.text != "" {
			add(start().put(theme.Late, m.message.text))
		}
		return out
	}
	switch {
	case m.waitingLine() != "":
		add(start().put(theme.Waiting, m.waitingLine()))
	case m.writing != nil && m.real.Sub(m.writing.since) >= WritingShown:
		add(start().put(theme.Waiting, "writing… "+m.writing.said))
	case m.message.err:
		for _, s := range m.th.wrap(m.message.text, m.width-2, 3) {
			add(start().put(theme.Danger, s))
		}
	case m.message.text != "":
		add(start().put(theme.Waiting, m.message.text))
	case m.markLine() != "":
		add(start().put(theme.Strong, m.markLine()))
	case m.asksHeard():
		add(m.heardLine(start()))
	case m.asksFar():
		q := "Step back: can you read this?"
		if m.mode == Far {
			add(start().put(theme.Waiting, q+" ").put(theme.Hands, "f").put(theme.Waiting, " makes it larger"))
		} else {
			add(start().put(theme.Waiting, q+" If not: ").put(theme.Hands, "f").put(theme.Waiting, " far view"))
		}
	case m.remediesKnown() != "" && m.mode.view():
		add(start().put(theme.Late, m.remediesKnown()).put(theme.Hands, "r").put(theme.Late, " shows what to give up"))
	case len(m.moment.Unconfirmed) > 0 && m.mode.view():
		l := start().put(theme.Waiting, m.unanswered()+": ")
		if m.mode == Main {
			l.put(theme.Hands, "a").put(theme.Waiting, " all as planned, ")
		}
		add(l.put(theme.Hands, "l").put(theme.Waiting, " list"))
	case m.remediesSought() != "" && m.mode.view():
		add(start().put(theme.Late, m.remediesSought()))
	default:
		add(start())
	}
	return out
}

// unanswered counts what nobody answered.
func (m *Model) unanswered() string {
	n := len(m.moment.Unconfirmed)
	if n == 1 {
		return fmt.Sprintf("since %s 1 thing unanswered", m.dayTime(m.moment.Unconfirmed[0].At))
	}
	return fmt.Sprintf("since %s %d things unanswered", m.dayTime(m.firstUnanswered()), n)
}
