package tui

import (
	"fmt"
	"slices"
	"strings"

	"example.org/kettledrum/tui/theme"
)

// View returns the frame: exactly as many lines as the screen is high, each
// exactly as wide.
func View(m Model) string {
	if m.width <= 0 || m.height <= 0 {
		return ""
	}
	var lines []string
	switch {
	case !fits(m.width, m.height):
		lines = m.tooSmall()
	default:
		lines = m.viewOf(m.base())
	}
	for len(lines) < m.height {
		lines = append(lines, blank(m.width))
	}
	return strings.Join(lines[:m.height], "\n")
}

// viewOf draws what a mode shows.
func (m *Model) viewOf(mode Mode) []string {
	switch mode {
	case Help:
		return m.viewHelp()
	case Far:
		return m.framed(m.viewFar, false)
	case Lanes:
		return m.framed(m.viewLanes, true)
	case StepView:
		return m.framed(m.viewStep, true)
	case Days:
		return m.framed(m.viewDays, true)
	case Log:
		return m.viewLog()
	case Finding:
		return m.viewFind()
	case Choices:
		return m.viewChoices()
	case Debrief:
		return m.viewDebrief()
	case Walk:
		return m.viewWalk()
	case WalkEnd:
		return m.viewWalkEnd()
	}
	return m.viewMain()
}

// tooSmall says so in one plain sentence, after what matters most.
func (m *Model) tooSmall() []string {
	text := fmt.Sprintf("This terminal is %d by %d; the screen needs %d by %d.", m.width, m.height, LeastWidth, LeastHeight)
	if len(m.moment.Cues) > 0 {
		text = theme.Word(m.moment.Cues[0].Class) + ": " + m.moment.Cues[0].Text + ". " + text
	}
	var out []string
	for _, s := range m.th.wrap(text, m.width, m.height) {
		out = append(out, newLine(m.th.Theme, m.width).put(theme.Plain, s).done())
	}
	return out
}

// viewMain puts the panes of all modes but the help into one frame.
func (m *Model) viewMain() []string {
	foot := m.foot()
	l := arrange(m.width, m.height, m.needs(), len(foot))
	lines := make([]string, m.height)
	lines[0] = m.title()
	if l.rule >= 0 {
		lines[l.rule] = newLine(m.th.Theme, m.width).put(theme.Track, strings.Repeat(m.th.Set.Rule, m.width)).done()
	}
	if l.wide {
		m.place(lines, l, leftPanes, rightPanes)
	} else {
		for p := paneGoing; p < panes; p++ {
			r := l.panes[p]
			for i, body := range m.body(p, r.w-gutter, r.h) {
				head := newLine(m.th.Theme, gutter)
				if i == 0 {
					head.put(theme.Dim, " "+labels[p])
				}
				lines[r.y+i] = head.done() + body
			}
		}
	}
	r := l.panes[paneNow]
	top := m.viewNow
	if m.mode == List {
		top = m.viewList
	}
	copy(lines[r.y:r.y+r.h], top(r.w, r.h))
	copy(lines[l.message:], foot)
	lines[l.help] = m.helpLine()
	for i, s := range lines {
		if s == "" {
			lines[i] = blank(m.width)
		}
	}
	return lines
}

// place draws two columns of panes with headings.
func (m *Model) place(lines []string, l layout, left, right []pane) {
	var cols [2]map[int]string
	for c, order := range [][]pane{left, right} {
		cols[c] = map[int]string{}
		for _, p := range order {
			r := l.panes[p]
			if r.h == 0 {
				continue
			}
			cols[c][r.y] = newLine(m.th.Theme, r.w).put(theme.Dim, " "+labels[p]).done()
			for i, body := range m.body(p, r.w, r.h-1) {
				cols[c][r.y+1+i] = body
			}
		}
	}
	leftW := leftColumn(l.width)
	rightW := l.width - columnGap - leftW
	for y := l.panes[paneNow].y + l.panes[paneNow].h; y < l.message; y++ {
		a, b := cols[0][y], cols[1][y]
		if a == "" && b == "" {
			continue
		}
		if a == "" {
			a = blank(leftW)
		}
		if b == "" {
			b = blank(rightW)
		}
		lines[y] = a + blank(columnGap) + b
	}
}

// body draws a pane into at most h lines of the width.
func (m *Model) body(p pane, w, h int) []string {
	if h <= 0 {
		return nil
	}
	switch p {
	case paneGoing:
		return m.viewGoing(w, h)
	case paneCourses:
		return m.viewCourses(w, h)
	case paneNext:
		return m.viewNext(w, h)
	case paneOven:
		return m.viewOven(w, h)
	case paneBroken:
		return m.viewBroken(w, h)
	case paneCaution:
		return m.viewCautions(w, h)
	case paneCooks:
		return m.viewCooks(w, h)
	case paneBurners:
		return m.viewBurners(w, h)
	case paneMoved:
		return m.viewMoved(w, h)
	}
	return nil
}

// title is the top line: the clock, whose dinner, and how long to the table.
func (m *Model) title() string {
	l := newLine(m.th.Theme, m.width)
	l.put(theme.Plain, " ").put(theme.Strong, m.titleClock()).put(theme.Plain, "   ")
	right, tok := m.toTable()
	mark := m.titleMark()
	room := m.width - l.w - width(clean(right, m.th.ASCII)) - 4
	if mark != "" {
		room -= width(clean(mark, m.th.ASCII)) + 3
	}
	l.put(theme.Title, cut(clean(m.state.Plan.Title, m.th.ASCII), max(0, room), m.th.Set.More))
	if mark != "" {
		l.put(theme.Plain, "   ").put(theme.Soon, mark)
	}
	l.to(m.width-1-width(clean(right, m.th.ASCII))).put(tok, right)
	return l.done()
}

// titleClock is the time now, with the weekday on any other day than the dinner's.
func (m *Model) titleClock() string {
	if table := m.state.Plan.Table; !m.today(table) {
		return m.now.In(m.zone).Format("Mon 15:04")
	}
	return m.clockTime(m.now)
}

// toTable says how long it is to the next course.
func (m *Model) toTable() (string, theme.Token) {
	if m.moment.Finished {
		return "everything is served", theme.Done
	}
	for i := range m.moment.Courses {
		c := &m.moment.Courses[i]
		if !c.Served.IsZero() {
			continue
		}
		name := "table"
		if i > 0 {
			name = m.state.Plan.Courses[c.Course].Name
		}
		if d := m.courseTime(c).Sub(m.now); d > 0 {
			return name + " in " + countdown(d), theme.Strong
		}
		return m.state.Plan.Courses[c.Course].Name + " is due", theme.Late
	}
	return "", theme.Plain
}

// titleMark tells what is out of the ordinary: a rehearsal, a screen that follows,
// sounds that are quiet.
func (m *Model) titleMark() string {
	var parts []string
	if r := m.rehearsalMark(); r != "" {
		parts = append(parts, r)
	}
	if m.following {
		parts = append(parts, "following")
	}
	if s := m.soundMark(); s != "" {
		parts = append(parts, s)
	}
	return strings.Join(parts, ", ")
}

func (m *Model) rehearsalMark() string {
	switch {
	case !m.rehearsing:
		return ""
	case m.paused:
		return "rehearsal, paused"
	case !m.endedAt.IsZero():
		return "rehearsal, over"
	case m.held():
		return "rehearsal, waits for you"
	}
	if m.speed == 1 {
		return "rehearsal, real time"
	}
	return fmt.Sprintf("rehearsal %g×", m.speed)
}

// helpLine lists the keys of the mode, as many as fit; help itself always.
func (m *Model) helpLine() string {
	var in []*Binding
	for i := range bindings {
		b := &bindings[i]
		if b.Line > 0 && slices.Contains(b.Modes, m.mode) && (!b.Rehearsal || m.rehearsing) &&
			(b.Off == nil || b.Off(m) == "" || m.writing != nil) && (b.Action != Back || m.mode != Main) {
			in = append(in, b)
		}
	}
	slices.SortStableFunc(in, func(a, b *Binding) int { return a.Line - b.Line })
	last := newLine(m.th.Theme, m.width)
	if slices.ContainsFunc(in, func(b *Binding) bool { return b.Action == ShowHelp }) {
		in = slices.DeleteFunc(in, func(b *Binding) bool { return b.Action == ShowHelp })
		last.put(theme.Hands, "?").put(theme.Dim, " help ")
	}
	l := newLine(m.th.Theme, m.width-last.w)
	l.put(theme.Plain, " ")
	for i, b := range in {
		key, word := b.Keys[0], clean(b.label(m), m.th.ASCII)
		if i == 0 {
			word = cut(word, l.max-l.w-width(key)-2, m.th.Set.More)
		}
		if l.w+width(key)+1+width(word)+2 > l.max {
			continue
		}
		l.put(theme.Hands, key).put(theme.Dim, " "+word).put(theme.Plain, "  ")
	}
	return l.done() + last.b.String()
}

// helps reports whether the help has a row: that of a walk-through has its keys alone,
// any other has none of them.
func (m *Model) helps(b *Binding) bool {
	walks, others := false, false
	for _, mode := range b.Modes {
		walks = walks || mode == Walk || mode == WalkEnd
		others = others || mode != Walk && mode != WalkEnd && mode != Help
	}
	return m.onWalk() && walks || !m.onWalk() && others
}

// viewHelp is the help screen: all keys, from the one table.
func (m *Model) viewHelp() []string {
	var body []string
	for i := range bindings {
		b := &bindings[i]
		if b.Rehearsal && !m.rehearsing || len(b.Modes) == 1 && (b.Modes[0] == Confirm || b.Modes[0] == Prompt) || !m.helps(b) {
			continue
		}
		full := m.th.wrap(b.Full, m.width-20, 4)
		if b.Action == ShowLanes {
			full = append(full, m.th.wrap(m.legend(), m.width-20, 12)...)
		}
		for j, s := range full {
			l := newLine(m.th.Theme, m.width).put(theme.Plain, " ")
			if j == 0 {
				l.put(theme.Hands, b.keys(""))
			}
			body = append(body, l.to(18).put(theme.Plain, s).done())
		}
	}
	room := m.height - 3
	top := max(0, min(m.helpTop, len(body)-room))
	head := newLine(m.th.Theme, m.width).put(theme.Plain, " ").put(theme.Title, "Keys")
	if len(body) > room {
		head.put(theme.Dim, fmt.Sprintf("   lines %d to %d of %d: up and down", top+1, min(len(body), top+room), len(body)))
	}
	lines := []string{head.done(), blank(m.width)}
	lines = append(lines, body[top:min(len(body), top+room)]...)
	for len(lines) < m.height-1 {
		lines = append(lines, blank(m.width))
	}
	return append(lines, m.helpLine())
}
