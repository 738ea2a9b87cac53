package tui

import (
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// What goes on by itself, where, and what ends it.

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
	brief := join(short, bare)
	if bare != head && bare != "" && '0' <= bare[0] && bare[0] <= '9' {
		brief = head // "oven, 190 °F" would read as what the oven is set to
	}
	for _, s := range []string{join(place, ends), join(short, ends), join(short, head), brief, short, bare} {
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
