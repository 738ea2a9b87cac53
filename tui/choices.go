package tui

import (
	"fmt"
	"strings"

	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// choice is one of several: what it says, and what taking it does.
type choice struct {
	text   string
	more   string // what else there is to know, on lines of their own
	events []run.Event
	ask    *prompt        // instead: something is to be typed first
	remedy *remedy.Remedy // instead: a way out
	sure   *question      // asked before the events
	off    string         // why it cannot be taken now; it keeps its place
}

// says is the choice with why it cannot be taken now.
func (c *choice) says() string {
	if c.off == "" {
		return c.text
	}
	return c.text + " (" + c.off + ")"
}

// choices are offered together.
type choices struct {
	title string
	of    []choice
	at    int
	ways  bool // they are ways out of what is late, of the dinner as it was when they were offered
}

// choiceKeys take one of several, the first the first one: ten digits, then letters
// that mean nothing else among choices.
var choiceKeys = strings.Split("1234567890abcdefghi", "")

// choiceKey is the key of the nth of several, from 0; empty: there is none.
func choiceKey(n int) string {
	if n >= len(choiceKeys) {
		return ""
	}
	return choiceKeys[n]
}

// offer shows choices.
func (m *Model) offer(title string, of []choice) {
	m.choices = choices{title: title, of: of}
	m.enter(Choices)
}

// choose takes one of them.
func (m *Model) choose(i int, k KeyMsg) []Effect {
	if i < 0 || i >= len(m.choices.of) {
		m.tell(fmt.Sprintf("there are %d to choose from", len(m.choices.of)))
		return nil
	}
	if why := offWriting(m); why != "" {
		m.tell(why)
		return nil
	}
	c := m.choices.of[i]
	if c.off != "" {
		m.tell("not now: " + c.off)
		return nil
	}
	stale := m.choices.ways && len(m.ways()) == 0
	m.choices = choices{}
	m.exit()
	switch {
	case stale:
		m.tell(staleWays)
		return nil
	case c.sure != nil:
		m.confirm = *c.sure
		m.confirm.effect = Record{Said: said(m.state.Plan, c.events[0]), Events: at(c.events, k.At)}
		m.enter(Confirm)
		return nil
	case c.remedy != nil:
		m.writing = &writing{since: k.Real, said: c.text}
		return []Effect{TakeRemedy{Remedy: *c.remedy, Said: c.text}}
	case c.ask != nil:
		m.ask(*c.ask)
		return nil
	}
	return m.record(said(m.state.Plan, c.events[0]), k, c.events...)
}

// viewChoices draws them into the whole screen, each with its number.
func (m *Model) viewChoices() []string {
	return m.framed(func(w, h int) []string {
		out := []string{newLine(m.th.Theme, w).put(theme.Title, " "+m.choices.title).done(), blank(w)}
		const left = 6
		var body []string
		from, to := 0, 0 // of the marked one
		for i := range m.choices.of {
			c := &m.choices.of[i]
			if i == m.choices.at {
				from = len(body)
			}
			for j, s := range m.th.wrap(c.says(), w-left-2, 2) {
				l := newLine(m.th.Theme, w)
				tok := theme.Plain
				switch {
				case c.off != "":
					tok = theme.Dim
				case i == m.choices.at:
					tok = theme.Strong
				}
				if j == 0 && i == m.choices.at {
					l.put(theme.Strong, " "+m.th.Set.Selected)
				}
				if j == 0 {
					l.to(3).put(theme.Hands, choiceKey(i))
				}
				body = append(body, l.to(left).put(tok, s).done())
			}
			if c.more != "" {
				for _, s := range m.th.wrapLines(c.more, w-left-2, 3) {
					body = append(body, newLine(m.th.Theme, w).to(left).put(theme.Dim, s).done())
				}
			}
			if i == m.choices.at {
				to = len(body)
			}
		}
		room := max(1, h-len(out))
		top := max(0, min(max(from-room/3, to-room), len(body)-room))
		return append(out, body[top:min(len(body), top+room)]...)
	}, true)
}
