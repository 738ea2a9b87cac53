package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// The far view is read from across the kitchen: one thing and its countdown.

const (
	farSizes = 3
	farLeft  = 3 // where everything in it begins
	farGap   = 3 // between the digits and the word after them
	// FarAskFor is how long, after the start, the screen asks whether it can be
	// read from where the cook will stand.
	FarAskFor = time.Minute
	// smallestCount and greatestCount are heights of digits, in lines. Taller
	// ones say no more.
	smallestCount, greatestCount = 3, 24
)

// farThing is the one thing: what is due, else what comes next.
type farThing struct {
	class  run.Class
	due    bool   // it is now
	short  string // for the big face
	full   string
	count  string // for the big digits; empty: none
	unit   string // after the digits
	over   bool   // a step's or a timer's time is up: the digits count since then
	around string // what the digits count: "until 18:40", "since 17:10"
}

func (m *Model) farThing() farThing {
	var t farThing
	switch {
	case len(m.moment.Cues) > 0:
		c := &m.moment.Cues[0]
		t = farThing{class: c.Class, due: true, short: m.shortName(c), full: c.Text}
		if c.Due.After(m.now) {
			t.count, t.unit = farCount(c.Due.Sub(m.now), true)
			t.around = "until " + m.dayTime(c.Due)
		} else {
			if m.now.Sub(c.Due) < longAgo {
				t.count, t.unit = farCount(m.now.Sub(c.Due), false)
				if t.over = timeIsUp(c); t.over { // else it reads as: begin, now
					t.unit = strings.TrimSpace(t.unit + " over")
				}
			}
			t.around = "since " + m.dayTime(c.Due)
		}
		if at, _ := m.cueSince(c); at == "" {
			t.count, t.unit, t.around, t.over = "", "", "", false
		}
	case m.moment.Finished:
		t = farThing{class: run.Note, short: "Enjoy the evening", full: "Every course is on the table."}
	case m.drifted(run.UnconfirmedAfter):
		t = farThing{class: run.Soon, short: "Nobody answered", full: "The last course is past, and nobody said so."}
	case len(m.moment.Next) > 0:
		u := &m.moment.Next[0]
		t = farThing{class: run.Soon, short: m.shortName(&u.Cue), full: u.Cue.Text, around: "until " + m.dayTime(u.At)}
		t.count, t.unit = farCount(u.At.Sub(m.now), true)
	default:
		t = farThing{class: run.Soon, short: "Nothing to do"}
	}
	return t
}

// timeIsUp reports whether a cue that is due says that a step's or a timer's time is up.
func timeIsUp(c *run.Cue) bool {
	if c.Class != run.Look || len(c.Answer) == 0 {
		return false
	}
	timer := c.Step < 0 && c.Answer[0].Kind == run.Acknowledged // a reminder has its step
	return timer || c.Answer[0].Kind == run.Finished
}

// farRow is the one thing as a row that keys act on: nothing else is to be seen.
func (m *Model) farRow() (row, bool) {
	var c *run.Cue
	switch {
	case len(m.moment.Cues) > 0:
		c = &m.moment.Cues[0]
	case len(m.moment.Next) > 0:
		c = &m.moment.Next[0].Cue
	default:
		return row{step: -1}, false
	}
	return row{id: c.ID, cue: c}, true
}

// asksFar reports whether the screen asks if it can be read from where the cook
// will stand: in the first minute, until a key was pressed but that for the view.
func (m *Model) asksFar() bool {
	return m.askFar && m.real.Sub(m.started) < FarAskFor && (m.mode == Main || m.mode == Far)
}

// shortName is what a cue is about in a few words: its text up to the first dots,
// of a standby what is to be started.
func (m *Model) shortName(c *run.Cue) string {
	text := c.Text
	if c.Class == run.Soon && c.Step >= 0 {
		text = m.state.Plan.Steps[c.Step].Do
	}
	text, _, _ = strings.Cut(text, "\n")
	text, _, _ = strings.Cut(text, " · ")
	if c.Step >= 0 && strings.HasPrefix(text, "Put in: ") {
		text = m.state.Plan.Steps[c.Step].Do
	}
	return text
}

// farCount writes a length for the big digits: seconds under ten minutes, as
// everywhere; up is whether it is rounded up, as what is left is.
func farCount(d time.Duration, up bool) (digits, unit string) {
	d = max(0, min(d, longestSpan))
	s := int(d / time.Second)
	min := int(d / time.Minute)
	if up {
		s, min = int((d+time.Second-1)/time.Second), plan.Minutes(d)
	}
	switch {
	case s < int(secondsBelow/time.Second):
		return fmt.Sprintf("%d:%02d", s/60, s%60), ""
	case min < 60:
		return fmt.Sprint(min), "min"
	case min < 24*60:
		return fmt.Sprintf("%dh%02d", min/60, min%60), ""
	}
	return fmt.Sprintf("%dd", min/60/24), ""
}

// viewFar draws the one thing into h lines.
func (m *Model) viewFar(w, h int) []string {
	t := m.farThing()
	plain, bold := m.th.Band(t.class, false), m.th.Band(t.class, true)
	text := m.th.wrapLines(t.full, w-2*farLeft, 2)
	rows := m.farRows(&t, w, h-len(text)-2)
	nameH := h - len(text) - 2 // a line above it says the class
	if t.count != "" {
		nameH -= rows + 2
	}
	name := m.farName(t.short, w-2*farLeft, nameH)

	var out []string
	band := func(s string) {
		l := newLine(m.th.Theme, w)
		if t.due {
			l.base = plain
			l.to(farLeft).styled(bold, s)
		} else {
			l.to(farLeft).put(theme.Strong, s)
		}
		out = append(out, l.done())
	}
	if word := theme.Word(t.class); t.due {
		band(m.th.Set.Classes[t.class] + " " + word)
	} else {
		head := "NEXT"
		if m.moment.Finished {
			head = m.th.Set.Done
		}
		out = append(out, newLine(m.th.Theme, w).to(farLeft).put(theme.Dim, head).done())
	}
	// Above the name, and below it where that is left, the line of nameH that it has
	// no need of, and the one that its ground ends with.
	spare := nameH + 1 - len(name)
	if spare > 0 {
		band("")
	}
	for _, s := range name {
		band(s)
	}
	if t.due && spare > 1 {
		band("")
	}
	add := func(l *line) { out = append(out, l.done()) }
	add(newLine(m.th.Theme, w))
	if t.count != "" {
		digits := count(t.count, rows, m.th.ASCII)
		tok := theme.Strong
		if t.due {
			tok = theme.Of(t.class)
		}
		unit := m.farUnit(&t, rows, w-2*farLeft)
		for i, s := range digits {
			l := newLine(m.th.Theme, w).to(farLeft).put(tok, s)
			if k := i - (len(digits) - len(unit)); t.unit != "" && k >= 0 {
				l.put(theme.Plain, strings.Repeat(" ", farGap)).put(tok, unit[k])
			}
			add(l)
		}
		add(newLine(m.th.Theme, w).to(farLeft).put(theme.Dim, t.around))
	}
	for i, s := range text {
		l := newLine(m.th.Theme, w).to(farLeft).put(theme.Plain, s)
		if i == 0 && len(text) == 1 && t.due {
			m.farAfter(l)
		}
		add(l)
	}
	return out[:min(len(out), h)]
}

// farAfter tells at the end of a line what comes after the one thing.
func (m *Model) farAfter(l *line) {
	if len(m.moment.Next) == 0 {
		return
	}
	u := &m.moment.Next[0]
	s := "then " + m.dayTime(u.At) + " " + m.shortName(&u.Cue)
	if l.w+3+width(clean(s, m.th.ASCII)) < l.max {
		l.to(l.max-farLeft-width(clean(s, m.th.ASCII))).put(theme.Dim, s)
	}
}

// farRows is how high the digits are: of what there is room for beside the name,
// a third, two thirds or all, and no lower than the word after them.
func (m *Model) farRows(t *farThing, w, h int) int {
	least := faceRows(1, m.th.ASCII) + 3 // of the name
	most := max(smallestCount, min(greatestCount, h-least))
	room := w - 2*farLeft
	fit := func(after int) int { // beside so much
		rows := most
		for rows > smallestCount && max(countWidth("00:00", rows, m.th.ASCII), countWidth(t.count, rows, m.th.ASCII)+after) > room {
			rows--
		}
		return rows
	}
	after := 0
	if t.over {
		wide, _ := faceWidth(strings.ToUpper(t.unit))
		after = farGap + wide
		// That a time is up is worth more than the tallest digits.
		if twice := farGap + 2*wide; fit(twice) > faceRows(2, m.th.ASCII) {
			after = twice
		}
	}
	most = fit(after)
	rows := max(smallestCount, min(most, (most*(m.farSize+1)+farSizes-1)/farSizes))
	if t.unit != "" {
		rows = max(rows, faceRows(1, m.th.ASCII))
	}
	return rows
}

// farUnit is the word after the digits: the unit small, that a time is up as large as
// there is room for beside them.
func (m *Model) farUnit(t *farThing, rows, w int) []string {
	word, scale := strings.ToUpper(t.unit), 1
	wide, _ := faceWidth(word)
	room := w - countWidth(t.count, rows, m.th.ASCII) - farGap
	for t.over && faceRows(scale+1, m.th.ASCII) <= rows && (scale+1)*wide <= room {
		scale++
	}
	return inFace(word, scale, m.th.ASCII)
}

// withoutArticles leaves out of a name the words that tell nothing.
func withoutArticles(name string) string {
	return strings.Join(slices.DeleteFunc(strings.Fields(name), func(word string) bool {
		return word == "the" || word == "a" || word == "an"
	}), " ")
}

// farName draws a short name as large as it fits, on two lines at most; in plain
// letters where the big face lacks one of its signs.
func (m *Model) farName(name string, w, h int) []string {
	for scale := 4; scale >= 1; scale-- {
		per := faceRows(scale, m.th.ASCII)
		n := min(2, (h+1)/(per+1))
		lines, whole := faced(name, scale, w, max(0, n))
		if !whole { // as on a note stuck to the cupboard: Simmer pears
			lines, whole = faced(withoutArticles(name), scale, w, max(0, n))
		}
		if n < 1 || len(lines) == 0 || !whole && scale > 1 {
			continue
		}
		var out []string
		for i, s := range lines {
			if i > 0 {
				out = append(out, "")
			}
			out = append(out, inFace(s, scale, m.th.ASCII)...)
		}
		return out
	}
	return m.th.wrap(name, w, 1)
}
