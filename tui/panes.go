package tui

import (
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// Columns that the panes share, so that their numbers stand under each other:
// a mark, how long, when, then what.
const (
	markCells  = 2
	leftCells  = 10 // "1 h 05 min", "over 12:34"
	clockCells = 5
	dayCells   = 9 // "Thu 19:00", where a pane shows another day
	between    = 2
)

// gridCells is where what stands in a row begins.
func (m *Model) gridCells() int { return markCells + leftCells + between + m.clockCells + between }

// clockColumn is how wide the times of the panes are at this moment.
func (m *Model) clockColumn() int {
	other := slices.ContainsFunc(m.moment.Going, func(g run.Going) bool { return !m.today(g.End) }) ||
		slices.ContainsFunc(m.moment.Courses, func(c run.CourseMoment) bool { return !m.today(m.courseTime(&c)) }) ||
		slices.ContainsFunc(m.moment.Next[:min(len(m.moment.Next), nextRows)], func(u run.Upcoming) bool { return !m.today(u.At) }) ||
		slices.ContainsFunc(m.moment.Ovens, func(o run.OvenMoment) bool { return o.Next != nil && !m.today(o.Next.At) })
	if other {
		return dayCells
	}
	return clockCells
}

// nextRows is how many rows of what comes next are shown at most.
const nextRows = 12

// grid starts a row of a pane: a mark, how long, when.
func (m *Model) grid(w int, mark string, tok theme.Token, left string, at time.Time) *line {
	l := newLine(m.th.Theme, w).field(theme.Strong, mark, markCells).right(tok, left, leftCells).to(markCells + leftCells + between)
	if at.IsZero() {
		return l.to(m.gridCells())
	}
	return l.field(theme.Dim, m.gridTime(at), m.clockCells+between)
}

// needs says how many lines each pane wants at this moment.
func (m *Model) needs() [panes]need {
	rows := func(n, least, good int) need {
		return need{least: min(n, least), good: min(n, good), full: n}
	}
	going := len(m.moment.Going)
	out := [panes]need{
		paneNow:     m.nowNeed(),
		paneNext:    rows(min(len(m.upcoming()), nextRows), 1, 2),
		paneGoing:   rows(going, 2, 5),
		paneOven:    rows(m.ovenLines(), 1, 2),
		paneCourses: rows(len(m.moment.Courses), 2, 3),
		paneBroken:  rows(len(m.broken()), 1, 2),
		paneCaution: rows(len(m.cautionLines(m.paneWidth())), 0, m.goodCautions()),
		paneCooks:   rows(len(m.state.Plan.Kitchen.Cooks), 0, len(m.state.Plan.Kitchen.Cooks)),
		paneBurners: rows(len(m.burnerLines(m.paneWidth())), 0, 1),
		paneMoved:   rows(len(m.moved()), 0, 2),
	}
	// What is not there is not left out.
	out[paneCooks].least = min(m.cooksAway(), out[paneCooks].full)
	out[paneBurners].least = min(m.sizesFailed(), out[paneBurners].full)
	if m.state.Timetable == nil {
		out[paneCooks] = need{}
	}
	if m.width >= wideFrom {
		// A line for the bar of each, or of none.
		out[paneGoing] = need{least: min(going, 2), good: going, full: 2 * going, whole: true}
	}
	if m.mode == List {
		out[paneNow] = m.listNeed()
		if m.width < wideFrom { // the list takes the place of both
			out[paneNext] = need{}
		}
	}
	return out
}

// goodCautions is how many lines of cautions are wanted before others get all theirs.
func (m *Model) goodCautions() int {
	if m.width >= wideFrom {
		return 2 * mostCaution
	}
	return 2
}

// paneWidth is how wide a pane of rows is.
func (m *Model) paneWidth() int {
	if m.width >= wideFrom {
		return leftColumn(m.width)
	}
	return m.width - gutter
}

// window returns which of n rows to show in h lines, so that row at is in it
// (-1: the first ones), and whether the last line must tell of the rest.
func window(n, h, at int) (from, to int, rest bool) {
	if n <= h {
		return 0, n, false
	}
	room := max(1, h-1)
	from = max(0, min(at-room+1, n-room))
	return from, from + room, h > 1
}

// upcoming is what comes next, but for what a standby cue tells already.
func (m *Model) upcoming() []run.Upcoming {
	return slices.DeleteFunc(slices.Clone(m.moment.Next), func(u run.Upcoming) bool {
		start, ok := strings.CutPrefix(u.Cue.ID, "start:")
		return ok && slices.ContainsFunc(m.moment.Cues, func(c run.Cue) bool { return c.ID == "soon:"+start })
	})
}

// viewNext lists what comes next and when.
func (m *Model) viewNext(w, h int) []string {
	var out []string
	for _, u := range m.upcoming() {
		if len(out) == h {
			break
		}
		tok := theme.Plain
		if u.At.Sub(m.now) <= run.SoonAhead {
			tok = theme.Soon
		}
		l := m.grid(w, "", tok, countdown(u.At.Sub(m.now)), u.At)
		out = append(out, l.put(theme.Plain, trim(u.Cue.Text, w-l.w-1, m)).done())
	}
	return out
}

// trim cleans a text and shortens it to n cells: what stands after its last dots goes
// first, but for a question that there is room for, which tells an end from a start;
// then its end.
func trim(s string, n int, m *Model) string {
	s = clean(s, m.th.ASCII)
	dot := m.th.dot()
	parts := strings.Split(s, dot)
	last := parts[len(parts)-1]
	asks := strings.HasSuffix(last, "?") && width(parts[0]+dot+last) <= n
	for width(s) > n && len(parts) > 1 {
		at := len(parts) - 1
		if asks {
			at--
		}
		parts = slices.Delete(parts, at, at+1)
		s = strings.Join(parts, dot)
	}
	return cut(s, n, m.th.Set.More)
}

// cueText is the text of a cue in n cells. What is late or has moved is told in a
// sentence, of which only the end may go.
func (m *Model) cueText(c *run.Cue, n int) string {
	text, _, _ := strings.Cut(c.Text, "\n")
	if c.Class == run.Danger || c.Class == run.LateCue || c.Class == run.Note {
		return cut(clean(text, m.th.ASCII), n, m.th.Set.More)
	}
	return trim(text, n, m)
}

// dot is what stands between two facts in a text of the run.
func (th painter) dot() string {
	if th.ASCII {
		return " - "
	}
	return " · "
}
