package tui

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// crowded is how many cells a minute may be drawn after its own, where that is taken.
const crowded = 2

// laneDetails is how many lines below the lanes tell of the selected step.
const laneDetails = 4

// scale turns instants into columns.
type scale struct {
	from  time.Time
	per   time.Duration
	cells int
	now   int // column of now; may lie outside
	left  int // where the first column is
}

func (s scale) col(t time.Time) int {
	d := t.Sub(s.from)
	if d < 0 {
		d -= s.per - 1
	}
	return int(d / s.per)
}

func (s scale) at(col int) time.Time { return s.from.Add(time.Duration(col) * s.per) }

// viewLanes draws the hours.
func (m *Model) viewLanes(w, h int) []string {
	from, per := m.lanesSpan(w)
	s := scale{from: from, per: per, cells: max(1, w-laneLabel(w)-1), left: laneLabel(w)}
	s.now = s.col(m.now)
	rows := m.lanesOf()
	m.lanes.row = max(0, min(m.lanes.row, len(rows)-1))
	out := []string{m.axis(w, s)}
	// The courses stay on top; the other lanes move up under them.
	room := h - 1 - laneDetails - 1 - 1
	top := max(1, min(m.lanes.row-room+2, len(rows)-room))
	if m.lanes.row < room {
		top = 1
	}
	empty := func() { out = append(out, m.gapCells(newLine(m.th.Theme, w).to(s.left), s, 0, s.cells).done()) }
	airy := len(rows)+countHeads(rows) <= room // then groups stand apart
	if airy {
		empty()
	}
	out = append(out, m.laneLine(&rows[0], w, s, m.lanes.row == 0, m.lanes.step))
	for r := top; r < min(len(rows), top+room); r++ {
		if airy && rows[r].head {
			empty()
		}
		out = append(out, m.laneLine(&rows[r], w, s, r == m.lanes.row, m.lanes.step))
	}
	for len(out) < h-laneDetails-1 {
		empty()
	}
	rule := newLine(m.th.Theme, w).put(theme.Track, strings.Repeat(m.th.Set.Rule, w))
	out = append(out, rule.done())
	return append(out, m.laneStep(w, laneDetails)...)
}

func countHeads(rows []lane) int {
	n := 0
	for i := range rows {
		if rows[i].head {
			n++
		}
	}
	return n
}

// axis is the line of the hours, with the time now over the line of now.
func (m *Model) axis(w int, s scale) string {
	l := newLine(m.th.Theme, w).put(theme.Dim, "  "+m.perCell(s.per)).to(s.left)
	every := ticks[len(ticks)-1]
	for _, t := range ticks {
		if t >= 9*s.per {
			every = t
			break
		}
	}
	now := m.clockTime(m.now)
	first := m.midnight(s.from)
	for first.Before(s.from) {
		first = first.Add(every)
	}
	for t := first; s.col(t) < s.cells; t = t.Add(every) {
		c := s.col(t)
		text := m.clockTime(t)
		if text == "00:00" {
			text = t.In(m.zone).Format("Mon 2")
		}
		near := s.now >= 0 && s.now < s.cells && c < s.now+len(now)+2 && c+len(text)+1 > s.now
		if near || s.left+c < l.w || c+len(text) > s.cells {
			continue
		}
		if c > s.now && s.now >= 0 && l.w <= s.left+s.now {
			m.putNow(l, s, now)
		}
		l.to(s.left+c).put(theme.Dim, text)
	}
	if s.now >= 0 && l.w <= s.left+s.now {
		m.putNow(l, s, now)
	}
	return l.done()
}

func (m *Model) putNow(l *line, s scale, now string) {
	if s.now < s.cells {
		at := min(s.now, s.cells-len(now)-1)
		l.to(s.left+at).put(theme.Strong, m.th.Set.Now+now)
	}
}

// ticks are the distances at which hours may be written.
var ticks = []time.Duration{10 * time.Minute, 15 * time.Minute, 30 * time.Minute, time.Hour, 2 * time.Hour, 3 * time.Hour, 6 * time.Hour, 12 * time.Hour, 24 * time.Hour}

func (m *Model) midnight(t time.Time) time.Time {
	l := t.In(m.zone)
	return time.Date(l.Year(), l.Month(), l.Day(), 0, 0, 0, 0, m.zone)
}

func (m *Model) perCell(d time.Duration) string {
	if m.lanes.zoom == 0 {
		return ""
	}
	return "1 = " + span(d)
}

// laneLine is one lane.
func (m *Model) laneLine(ln *lane, w int, s scale, marked bool, step int) string {
	l := newLine(m.th.Theme, w)
	if marked && step >= 0 {
		l.put(theme.Strong, m.th.Set.Selected)
	}
	tok := theme.Dim
	if marked {
		tok = theme.Plain
	}
	l.to(2).field(tok, ln.label, s.left-3).to(s.left)
	if ln.oven >= 0 {
		return m.profile(l, ln, s).done()
	}
	at := 0
	for i, k := range ln.marks {
		c := s.col(k.at)
		if c < at || c >= s.cells {
			continue
		}
		m.gapCells(l, s, at, c)
		until := s.cells
		if i+1 < len(ln.marks) { // the next one is to be seen too
			until = max(c+1, min(until, s.col(ln.marks[i+1].at)))
		}
		text := cut(clean(m.th.Set.Serve+k.text, m.th.ASCII), until-c, m.th.Set.More)
		l.put(theme.Title, text)
		at = c + width(text)
	}
	for i := range ln.pieces {
		p := &ln.pieces[i]
		a, b := max(at, s.col(p.from)), min(s.cells, max(s.col(p.to.Add(-1))+1, s.col(p.from)+1))
		if p.how.touch() && a-s.col(p.from) <= crowded { // a minute is to be seen, if a cell beside its own
			b = min(s.cells, a+1)
		}
		if b <= a || a >= s.cells {
			continue
		}
		m.gapCells(l, s, at, a)
		m.piece(l, p, s, a, b, p.step >= 0 && p.step == step)
		at = b
		if p.slack > 0 {
			until := s.cells
			if i+1 < len(ln.pieces) {
				until = max(at, min(until, s.col(ln.pieces[i+1].from)))
			}
			if end := min(until, s.col(p.to.Add(p.slack))); end > at {
				l.put(theme.Track, strings.Repeat(m.th.Set.Slack, end-at))
				at = end
			}
		}
	}
	return m.gapCells(l, s, at, s.cells).done()
}

// gapCells are empty cells of a lane, with the line of now through them.
func (m *Model) gapCells(l *line, s scale, a, b int) *line {
	if s.now >= a && s.now < b {
		l.to(s.left+s.now).put(theme.Strong, m.th.Set.NowLine)
	}
	if b > a {
		l.to(s.left + b)
	}
	return l
}

// legend says what the signs among the hours are.
func (m *Model) legend() string {
	set := &m.th.Set
	return fmt.Sprintf("A cook: %s puts in, %s takes out, %s stirs or turns, %s sets the oven. A step of one cell: %s to come, %s going, %s done. As far as %s goes, it may start later.",
		set.Touches[0][3], set.Touches[1][3], set.Touches[2][3], set.Touches[3][3], set.Ahead[3], set.Under[3], set.Past[3], set.Slack)
}

// piece draws a step from one column to another. How it is drawn tells what it
// is: done, going, to come, assumed, over.
func (m *Model) piece(l *line, p *piece, s scale, a, b int, chosen bool) {
	set := &m.th.Set
	look := set.Ahead
	tok := theme.Plain
	switch p.how {
	case pieceDone:
		look, tok = set.Past, theme.Dim
	case pieceGoing:
		look, tok = set.Under, theme.Going
	case pieceOver:
		look, tok = set.Late, theme.Look
	case pieceAssumed:
		look, tok = set.Guessed, theme.Waiting
	case pieceTable:
		look, tok = set.Table, theme.Dim
	case pieceIn, pieceOut, pieceStir, pieceDial:
		look, tok = set.Touches[p.how-pieceIn], theme.Hands
		if !p.to.After(m.now) {
			tok = theme.Dim
		}
	}
	fill := func(col int) string {
		if look == set.Under && col > s.now {
			return set.Ahead[1]
		}
		return look[1]
	}
	ends := [2]string{look[0], look[2]}
	if chosen && p.how.touch() {
		tok = theme.Strong // its sign stays, and says what is to be done
	} else if chosen {
		ends, tok = [2]string{set.Chosen[0], set.Chosen[2]}, theme.Strong
	}
	if b-a == 1 {
		one := look[3]
		if chosen && !p.how.touch() {
			one = set.Chosen[3]
		}
		l.put(tok, one)
		return
	}
	name := clean(p.name, m.th.ASCII)
	if p.how == pieceAssumed {
		name = set.Assumed + " " + name
	}
	if b-a < 6 {
		name = ""
	} else {
		name = cut(name, b-a-2, set.More)
	}
	l.put(tok, ends[0]+name)
	var rest strings.Builder
	for c := a + 1 + width(name); c < b-1; c++ {
		if chosen {
			rest.WriteString(set.Chosen[1])
		} else {
			rest.WriteString(fill(c))
		}
	}
	l.put(tok, rest.String()+ends[1])
}

// profile is the temperature of an oven as a curve, with what it is set to.
func (m *Model) profile(l *line, ln *lane, s scale) *line {
	at := make([]time.Time, s.cells)
	for c := range at {
		at[c] = s.at(c).Add(s.per / 2)
	}
	temps := run.OvenProfile(m.state, m.now, ln.oven, at)
	room := m.state.Plan.Kitchen.Room
	top := room + 1
	for _, t := range temps {
		top = max(top, t)
	}
	texts := map[int]string{}
	slices.SortStableFunc(ln.marks, func(a, b mark) int { return a.at.Compare(b.at) })
	for i, k := range ln.marks {
		c := s.col(k.at)
		text := clean(k.text, m.th.ASCII)
		until := s.cells
		if i+1 < len(ln.marks) {
			until = s.col(ln.marks[i+1].at)
		}
		if c < 0 && until > 0 && text != "off" { // in force from before on
			c = 0
		}
		if c >= 0 && c+len([]rune(text))+2 <= until {
			texts[c] = " " + text + " "
		}
	}
	steps := m.th.Set.Levels
	for c := 0; c < s.cells; {
		if text, ok := texts[c]; ok && c+width(text) <= s.cells {
			l.put(theme.Oven, text)
			c += width(text)
			continue
		}
		share := float64(temps[c]-room) / float64(top-room)
		k := max(0, min(len(steps)-1, int(share*float64(len(steps))+0.3)))
		switch {
		case share < 0.03 && c == s.now:
			l.put(theme.Strong, m.th.Set.NowLine)
		case share < 0.03:
			l.to(l.w + 1)
		default:
			l.put(theme.Oven, steps[k])
		}
		c++
	}
	return l
}
