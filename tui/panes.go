package tui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
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

// courseTime is when a course is or was on the table.
func (m *Model) courseTime(c *run.CourseMoment) time.Time {
	for _, at := range []time.Time{c.Served, c.Projected, c.Planned} {
		if !at.IsZero() {
			return at
		}
	}
	return c.Asked
}

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

// viewGoing shows what goes on by itself, each in a row that keeps its place;
// in two columns, where there is room for it, the bar stands on a line of its own.
func (m *Model) viewGoing(w, h int) []string {
	going := m.moment.Going
	tall := m.width >= wideFrom && h >= 2*len(going)
	chosen, _ := m.chosen()
	at := slices.IndexFunc(going, func(g run.Going) bool { return chosen.id == m.goingID(&g) })
	shown := m.goingShown(h, at)
	barW := max(4, min(20, (w-m.gridCells()-18)/3))
	spots := m.spots()
	labelW, detailW := m.goingColumns(w-m.gridCells()-barW-3, tall, spots)
	out := make([]string, 0, h)
	for _, i := range shown {
		g := &going[i]
		l, tok := m.goingStart(g, w, i == at)
		label := g.Label
		if g.Unconfirmed {
			label = m.th.Set.Assumed + " " + label
		}
		text := theme.Plain
		if m.selected != "" && i == at {
			text = theme.Strong
		}
		if tall {
			out = append(out, l.put(text, trim(label, w-l.w-1, m)).done())
			l = newLine(m.th.Theme, w).to(m.gridCells()).bar(tok, share(g.Start, g.End, m.now), min(20, (w-m.gridCells())/2))
			out = append(out, l.put(theme.Plain, "  ").put(theme.Dim, trim(m.detail(g, spots, w-l.w-1), w-l.w-1, m)).done())
			continue
		}
		l.bar(tok, share(g.Start, g.End, m.now), barW).put(theme.Plain, "  ")
		if detail := trim(m.detail(g, spots, detailW), detailW, m); detail == "" {
			l.put(text, trim(label, w-l.w-1, m))
		} else {
			l.field(text, trim(label, labelW, m), labelW).put(theme.Plain, "  ").put(theme.Dim, detail)
		}
		out = append(out, l.done())
	}
	if n := len(going) - len(shown); n > 0 && len(out) < h {
		out = append(out, newLine(m.th.Theme, w).to(m.gridCells()).put(theme.Dim, m.unseen(n)).done())
	}
	return out
}

// goingShown are the rows of what is going that have room in h lines, in their
// order: where there are more, the marked one and those that end first.
func (m *Model) goingShown(h, marked int) []int {
	all := make([]int, len(m.moment.Going))
	for i := range all {
		all[i] = i
	}
	if len(all) <= h {
		return all
	}
	slices.SortStableFunc(all, func(a, b int) int {
		if a == marked || b == marked {
			return bit(b == marked) - bit(a == marked)
		}
		return m.moment.Going[a].End.Compare(m.moment.Going[b].End)
	})
	all = all[:max(1, h-1)]
	slices.Sort(all)
	return all
}

func bit(is bool) int {
	if is {
		return 1
	}
	return 0
}

// goingStart begins the row of something going, and returns its bar's token.
func (m *Model) goingStart(g *run.Going, w int, chosen bool) (*line, theme.Token) {
	mark := ""
	if chosen && m.mode != List {
		mark = m.th.Set.Selected
	}
	tok, bar, left := theme.Strong, theme.Going, countdown(g.End.Sub(m.now))
	switch {
	case g.Unconfirmed:
		tok, bar = theme.Waiting, theme.Waiting
	case g.Over:
		tok, bar = theme.Look, theme.Look
	}
	if d := m.now.Sub(g.End); d >= time.Second {
		left = "over " + ago(d)
	}
	return m.grid(w, mark, tok, left, g.End), bar
}

// goingColumns shares the room of a row between its label and where and until
// when, the same in all rows. Labels come first, without their dishes; the second is
// left out where nothing is left for it.
func (m *Model) goingColumns(room int, tall bool, at spots) (labelW, detailW int) {
	if room < 30 || tall {
		return room, 0
	}
	need := 0
	for i := range m.moment.Going {
		name, _, _ := strings.Cut(m.moment.Going[i].Label, m.th.dot())
		need = max(need, width(clean(name, m.th.ASCII))+2)
	}
	most := room - 2 - min(need, room*7/10)
	for i := range m.moment.Going {
		detailW = max(detailW, width(m.detail(&m.moment.Going[i], at, most)))
	}
	if detailW = min(detailW, most); detailW == 0 {
		return room, 0
	}
	return room - 2 - detailW, detailW
}

// detail says where something is and what ends it: in full where there is room,
// else in short, at last only where.
func (m *Model) detail(g *run.Going, at spots, room int) string {
	short, place := m.places(g, at)
	place, ends := clean(place, m.th.ASCII), clean(g.Ends, m.th.ASCII)
	head, _, _ := strings.Cut(ends, ", ") // of "until 190 °F, tender to a fork" the temperature says most
	join := func(a, b string) string {
		if a == "" || b == "" {
			return a + b
		}
		return a + ", " + b
	}
	bare := strings.TrimPrefix(head, "until ")
	for _, s := range []string{join(place, ends), join(short, ends), join(short, head), join(short, bare), short, bare} {
		if s != "" && width(s) <= room {
			return s
		}
	}
	return short
}

// share is how much of the time from start to end has passed, 0 to 1.
func share(start, end, now time.Time) float64 {
	if !end.After(start) {
		return 1
	}
	return min(1, max(0, float64(now.Sub(start))/float64(end.Sub(start))))
}

// ovenLines is how many lines the ovens take: one for what each does now, one
// for what is next.
func (m *Model) ovenLines() int {
	n := 0
	for i := range m.moment.Ovens {
		n++
		if m.moment.Ovens[i].Next != nil {
			n++
		}
	}
	return n
}

// viewOven shows what each oven is doing, and what it is to do next.
func (m *Model) viewOven(w, h int) []string {
	var out []string
	units := m.state.Plan.Units
	for i := range m.moment.Ovens {
		o := &m.moment.Ovens[i]
		name := ""
		if len(m.moment.Ovens) > 1 && o.Oven < len(m.state.Plan.Kitchen.Ovens) {
			name = m.state.Plan.Kitchen.Ovens[o.Oven].Name + ": "
		}
		var l *line
		switch {
		case o.Oven < len(m.state.Plan.Kitchen.Ovens) && m.ovenFailed(m.state.Plan.Kitchen.Ovens[o.Oven].Name):
			l = m.grid(w, "", theme.Late, "failed", time.Time{}).put(theme.Late, name+"now "+units.Temp(o.Temp))
		case !o.On:
			l = m.grid(w, "", theme.Dim, "off", time.Time{}).put(theme.Dim, name+"now "+units.Temp(o.Temp))
		case !o.Ready.IsZero() && o.Ready.After(m.now):
			l = m.grid(w, "", theme.Oven, countdown(o.Ready.Sub(m.now)), o.Ready)
			l.put(theme.Oven, name+units.Temp(o.Set)).put(theme.Plain, ", now "+units.Temp(o.Temp))
		default:
			l = m.grid(w, "", theme.Oven, "ready", time.Time{}).put(theme.Oven, name+units.Temp(o.Set))
		}
		if inside := m.inside(o.Inside); inside != "" {
			l.put(theme.Dim, trim("  "+m.th.Set.Dot+" "+inside, w-l.w-1, m))
		}
		out = append(out, l.done())
		if n := o.Next; n != nil {
			l := m.grid(w, "", theme.Plain, countdown(n.At.Sub(m.now)), n.At)
			if n.Off {
				l.put(theme.Plain, name+"switch off")
			} else {
				l.put(theme.Plain, name+"then ").put(theme.Oven, units.Temp(n.To))
				l.put(theme.Plain, ", ready "+run.DayTime(n.Ready, n.At, m.zone))
				if n.For >= 0 {
					l.whole(theme.Plain, ", for "+m.dish(n.For))
				}
			}
			out = append(out, l.done())
		}
	}
	return out[:min(h, len(out))]
}

// inside names the dishes in an oven, each once.
func (m *Model) inside(steps []int) string {
	var names []string
	for _, s := range steps {
		if n := m.dish(s); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ", ")
}

func (m *Model) dish(step int) string {
	if step < 0 || step >= len(m.state.Plan.Steps) {
		return ""
	}
	return run.DishName(m.state.Plan, step)
}

// viewCourses shows when each course is on the table and whether that holds.
func (m *Model) viewCourses(w, h int) []string {
	at := slices.IndexFunc(m.moment.Courses, func(c run.CourseMoment) bool { return c.Served.IsZero() })
	var out []string
	nameW := 0
	for i := range m.state.Plan.Courses {
		nameW = max(nameW, width(clean(m.state.Plan.Courses[i].Name, m.th.ASCII)))
	}
	nameW = min(nameW, max(8, (w-m.gridCells())/2))
	n := len(m.moment.Courses)
	from := 0
	if n > h { // what is served gives way first
		from = max(0, min(at, n-h))
	}
	for i := from; i < min(n, from+h); i++ {
		c := &m.moment.Courses[i]
		course := &m.state.Plan.Courses[c.Course]
		var l *line
		state, allowed, tok := "on time", "", theme.Done
		switch {
		case !c.Served.IsZero():
			l = m.grid(w, "", theme.Done, "served", c.Served)
			state = m.th.Set.Done
		default:
			when := m.courseTime(c)
			left := countdown(when.Sub(m.now))
			if !when.After(m.now) {
				left = "due"
			}
			switch {
			case c.Misses:
				tok, state = theme.Danger, fmt.Sprintf("%s %s late", m.th.Set.Classes[run.LateCue], span(c.Late))
				allowed = fmt.Sprintf(", more than the %s allowed", span(course.LateOK))
			case c.Late > 0:
				tok, state = theme.Late, span(c.Late)+" late"
				allowed = fmt.Sprintf(", %s allowed", span(course.LateOK))
			case m.now.Sub(when) >= run.UnconfirmedAfter:
				tok, state = theme.Waiting, m.th.Set.Assumed+" not answered"
			default:
				if why := m.atRisk(c.Course); why != "" {
					tok, state, allowed = theme.Look, "at risk", ": "+clean(why, m.th.ASCII)
				}
			}
			l = m.grid(w, "", theme.Plain, left, when)
		}
		l.field(theme.Plain, course.Name, nameW).put(theme.Plain, "  ")
		if l.w+width(state+allowed) < w { // else only how late it is
			state += allowed
		}
		out = append(out, l.put(tok, trim(state, w-l.w-1, m)).done())
	}
	return out
}

// broken are the rules that will not be kept, as things go, the gravest first; that
// a course is late stands with the courses.
func (m *Model) broken() []plan.Break {
	var out []plan.Break
	for _, b := range m.moment.Breaks {
		if b.Kind.Hard() && b.Kind != plan.BreakLate {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(a, b plan.Break) int {
		return cmp.Or(gravity(a.Kind)-gravity(b.Kind), b.Minutes-a.Minutes, a.At.Compare(b.At))
	})
	return out
}

// gravity orders broken rules: what may make somebody ill or spoil the food, then
// what cannot be done as it stands, then what the cook can make do with.
func gravity(k plan.BreakKind) int {
	switch k {
	case plan.BreakKeep:
		return 0
	case plan.BreakLength, plan.BreakOven, plan.BreakOrder, plan.BreakGap:
		return 1
	case plan.BreakHands, plan.BreakSpace, plan.BreakBurner, plan.BreakTool, plan.BreakCold:
		return 2
	}
	return 3
}

func (m *Model) viewBroken(w, h int) []string {
	bs := m.broken()
	from, to, rest := window(len(bs), h, -1)
	var out []string
	for _, b := range bs[from:to] {
		l := newLine(m.th.Theme, w).put(theme.Plain, "  ")
		// Only its end may go: what is broken stands after the dots of the name.
		out = append(out, l.put(theme.Late, cut(clean(b.Text, m.th.ASCII), w-l.w-1, m.th.Set.More)).done())
	}
	if rest {
		out = append(out, newLine(m.th.Theme, w).put(theme.Late, "  "+m.unseen(len(bs)-to)+": g shows all").done())
	}
	return out
}

// moved is what the last change of the timetable moved, while that is news.
func (m *Model) moved() []string {
	if c := m.moment.Cues; len(c) > 0 && c[0].Class == run.Note {
		return nil // stands in the block on top
	}
	if m.state.AdoptedAt.IsZero() || m.now.Sub(m.state.AdoptedAt) > MovedStays {
		return nil
	}
	return m.state.Why
}

func (m *Model) viewMoved(w, h int) []string {
	var out []string
	for i, s := range m.moved() {
		if len(out) == h {
			break
		}
		l := newLine(m.th.Theme, w).put(theme.Plain, "  ")
		if i == 0 {
			s = m.dayTime(m.state.AdoptedAt) + "  " + s
		}
		out = append(out, l.put(theme.Note, trim(s, w-l.w-1, m)).done())
	}
	return out
}
