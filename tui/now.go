package tui

import (
	"fmt"
	"time"
	"unicode/utf8"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

func firstRune(s string) (rune, int) { return utf8.DecodeRuneInString(s) }

// indent is the column at which the text of every pane begins in one column.
const indent = gutter

// nowNeed says how many lines the top pane wants: a filled block for the most
// urgent cue, and one line for each of the others.
func (m *Model) nowNeed() need {
	others := max(0, len(m.moment.Cues)-1)
	return need{least: 3 + min(1, others), good: 4 + min(3, others), full: 6 + others}
}

// viewNow draws what is to be done now.
func (m *Model) viewNow(w, h int) []string {
	if len(m.moment.Cues) == 0 {
		return m.viewIdle(w, h)
	}
	c := &m.moment.Cues[0]
	others := m.moment.Cues[1:]
	shown := min(len(others), max(0, h-3))
	if len(others) > 3 {
		shown = min(shown, max(3, h-7))
	}
	lines := m.block(c, w, h-shown)
	for i := range others[:shown] {
		if i == shown-1 && shown < len(others) {
			rest := others[i:]
			l := newLine(m.th.Theme, w).to(indent).put(theme.Dim, m.unseen(len(rest))+": "+rest[0].Text)
			lines = append(lines, l.done())
			break
		}
		lines = append(lines, m.cueLine(&others[i], w))
	}
	return lines
}

// block is the filled block of the most urgent cue, h lines high, at least two.
func (m *Model) block(c *run.Cue, w, h int) []string {
	plain, bold := m.th.Band(c.Class, false), m.th.Band(c.Class, true)
	line := func() *line {
		l := newLine(m.th.Theme, w)
		l.base = plain
		return l
	}
	since, late := m.cueSince(c)
	left := max(indent, 1+width(m.th.Set.Classes[c.Class])+1+width(theme.Word(c.Class))+1)
	room := w - left - 2
	text := m.th.wrapLines(c.Text, room-len(since)-2, min(3, h-1))
	pad := 0
	if h-len(text)-1 >= 2 {
		pad = (h - len(text) - 1) / 2
	}
	var out []string
	for range pad {
		out = append(out, line().done())
	}
	mark := " "
	if r, _ := m.chosen(); c.ID == r.id {
		mark = m.th.Set.Selected
	}
	for i, s := range text {
		l := line()
		if i == 0 {
			l.styled(bold, mark+m.th.Set.Classes[c.Class]+" "+theme.Word(c.Class)).to(left).styled(bold, s)
			l.to(w-2-len(since)).styled(plain, since)
		} else {
			l.to(left).styled(bold, s)
		}
		out = append(out, l.done())
	}
	if gap := h - len(out) - 1 - pad; gap > 0 {
		out = append(out, line().done())
	}
	key := line().to(left)
	if !m.following { // else it does nothing here
		key.styled(plain, "press ").styled(bold, "space").styled(plain, ": "+answerLabel(m))
	}
	out = append(out, key.to(w-2-len(late)).styled(plain, late).done())
	for len(out) < h {
		out = append(out, line().done())
	}
	return out
}

// longAgo is from when on it says nothing any more for how long something is due.
const longAgo = 12 * time.Hour

// cueSince says when a cue came up, and for how long it has been there; of a course
// that will be late neither: its text has the times that matter.
func (m *Model) cueSince(c *run.Cue) (at, over string) {
	if c.Class == run.LateCue && c.Course >= 0 {
		return "", ""
	}
	if d := m.now.Sub(c.Due); d >= time.Minute && d < longAgo {
		over = "for " + ago(d)
	}
	return m.dayTime(c.Due), over
}

// cueLine is one further cue.
func (m *Model) cueLine(c *run.Cue, w int) string {
	l := newLine(m.th.Theme, w)
	tok := theme.Of(c.Class)
	mark, label := " ", c.Label
	if c.ID == m.selected && !m.following {
		mark = m.th.Set.Selected
		if label == "" {
			label = "seen"
		}
		label = "d " + label
	}
	l.put(theme.Strong, mark).put(tok, m.th.Set.Classes[c.Class]+" "+theme.Word(c.Class)).put(theme.Plain, " ").to(indent)
	due, _ := m.cueSince(c)
	room := w - l.w - len(due) - 4
	if c.ID == m.selected && width(clean(label, m.th.ASCII)) < room/2 {
		label = clean(label, m.th.ASCII)
		l.put(theme.Strong, m.cueText(c, room-width(label)-2)).put(theme.Hands, "  "+label)
	} else {
		l.put(theme.Plain, m.cueText(c, room))
	}
	return l.to(w-2-len(due)).put(theme.Dim, due).done()
}

// viewIdle says that nothing is to be done, and until when; where that is another
// day, how to go on then.
func (m *Model) viewIdle(w, h int) []string {
	head, detail, later := "Nothing to do", "", ""
	symbol, tok := m.th.Set.Classes[run.Soon], theme.Done
	switch {
	case m.moment.Finished:
		symbol, head = m.th.Set.Done, "Every course is on the table. Enjoy the evening"
		if len(m.moment.Going) > 0 {
			detail = "something is still going"
		}
	case m.drifted(run.UnconfirmedAfter):
		head, detail = "The last course is past, and nobody said so", "a says that all went as planned: then how it went is told"
	case len(m.moment.Next) > 0:
		n := m.moment.Next[0]
		head = "Nothing to do until " + m.dayTime(n.At)
		detail = "then: " + n.Cue.Text
		if m.doneToday() && !m.rehearsing {
			later = "q quits and keeps everything"
			if m.resume != "" {
				later += "; go on with: " + m.resume
			}
		}
	}
	lines := []string{newLine(m.th.Theme, w).put(tok, " "+symbol).to(indent).put(theme.Strong, head).done()}
	put := func(text string, most int) {
		for _, s := range m.th.wrap(text, w-indent-2, most) {
			if s != "" {
				lines = append(lines, newLine(m.th.Theme, w).to(indent).put(theme.Dim, s).done())
			}
		}
	}
	room := 2
	if later != "" {
		room = 1
	}
	put(detail, room)
	put(later, 2)
	lines = lines[:min(len(lines), h)]
	var out []string
	for range max(0, (h-max(3, len(lines)))/2) {
		out = append(out, blank(w))
	}
	out = append(out, lines...)
	for len(out) < h {
		out = append(out, blank(w))
	}
	return out
}

// viewList draws what nobody answered, in the place of what to do now.
func (m *Model) viewList(w, h int) []string {
	un := m.moment.Unconfirmed
	head := newLine(m.th.Theme, w).put(theme.Waiting, " "+m.th.Set.Assumed).to(indent).
		put(theme.Strong, "Since "+m.dayTime(m.firstUnanswered())+": done, not yet, when?")
	lines := []string{head.done()}
	if h > 6 {
		lines = append(lines, blank(w))
	}
	tail := 0
	if len(m.moment.Cues) > 0 {
		tail = 1
	}
	room := max(1, h-len(lines)-tail)
	top := max(0, min(m.listAt-room/2, len(un)-room))
	for i := top; i < min(len(un), top+room); i++ {
		u := &un[i]
		l := newLine(m.th.Theme, w)
		text := theme.Plain
		if i == m.listAt {
			l.to(indent-3).put(theme.Strong, m.th.Set.Selected+" ")
			text = theme.Strong
		}
		l.to(indent-1).put(theme.Plain, " ")
		l.put(theme.Waiting, m.dayTime(u.At)+"  ")
		rest := ""
		if i == top+room-1 && len(un) > top+room {
			rest = m.unseen(len(un) - top - room)
		}
		l.put(text, trim(u.Cue.Text, w-l.w-2-len(rest)-2, m))
		lines = append(lines, l.to(w-2-len(rest)).put(theme.Dim, rest).done())
	}
	for len(lines) < h-tail {
		lines = append(lines, blank(w))
	}
	if tail == 1 && len(lines) < h {
		lines = append(lines, m.cueLine(&m.moment.Cues[0], w))
	}
	return lines
}

func (m *Model) listNeed() need {
	n := len(m.moment.Unconfirmed)
	return need{least: 4, good: min(n, 6) + 3, full: n + 4}
}

func (m *Model) firstUnanswered() time.Time {
	var at time.Time
	for i := range m.moment.Unconfirmed {
		if u := &m.moment.Unconfirmed[i]; at.IsZero() || u.At.Before(at) {
			at = u.At
		}
	}
	return at
}

// unseen says that n rows are not shown.
func (m *Model) unseen(n int) string { return fmt.Sprintf("and %d more", n) }
