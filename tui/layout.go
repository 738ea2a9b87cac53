package tui

// pane names a part of the screen.
type pane int

// Panes, in the order in which they get their first lines: what to do now and
// what is late are the last to go.
const (
	paneNow pane = iota
	paneGoing
	paneCourses
	paneNext
	paneOven
	paneBroken
	paneCaution
	paneCooks
	paneBurners
	paneMoved
	panes
)

// labels are what the panes are called on the screen, at most seven cells.
var labels = [panes]string{paneGoing: "GOING", paneCourses: "COURSES", paneNext: "NEXT", paneOven: "OVEN", paneBroken: "BROKEN",
	paneCaution: "CAUTION", paneCooks: "COOKS", paneBurners: "BURNERS", paneMoved: "MOVED"}

// rect is a rectangle of cells.
type rect struct{ x, y, w, h int }

// need is how many lines a pane asks for.
type need struct {
	least int // without them it is useless; zero: may be left out
	good  int // what it needs to be complete for most purposes
	full  int // all it could show
	// whole: less than full is of no more use than good.
	whole bool
}

// layout says where everything goes.
type layout struct {
	width, height int
	wide          bool // two columns
	panes         [panes]rect
	rule          int // line of the rule under the title, -1 for none
	message       int // line of messages and questions
	messageH      int // and how many
	help          int // line of the help
}

// Sizes of the screen.
const (
	LeastWidth  = 60
	LeastHeight = 18
	wideFrom    = 100 // two columns
	gutter      = 9   // the labels on the left, in one column
	columnGap   = 3
)

// The panes of two columns, below what to do now, and of one, from top to bottom.
var (
	leftPanes  = []pane{paneGoing, paneOven, paneBurners, paneCaution, paneBroken}
	rightPanes = []pane{paneNext, paneCooks, paneCourses, paneMoved}
	onePanes   = []pane{paneNow, paneNext, paneGoing, paneOven, paneBurners, paneCooks, paneCourses, paneCaution, paneBroken, paneMoved}
)

// fits reports whether the screen is large enough for panes at all.
func fits(w, h int) bool { return w >= LeastWidth && h >= LeastHeight }

// arrange is a pure function from size and needs to rectangles.
func arrange(w, h int, needs [panes]need, messageH int) layout {
	l := layout{width: w, height: h, wide: w >= wideFrom, rule: -1, messageH: messageH, help: h - 1}
	l.message = h - 1 - messageH
	top, bottom := 1, l.message
	if h >= 22 {
		l.rule, top = 1, 2
	}
	if l.wide {
		// What to do now goes across; below it two columns of panes with headings.
		room := bottom - top
		now := needs[paneNow]
		nowH := min(now.full, max(now.least, min(now.good, room/2)))
		if room >= 24 {
			nowH = min(now.full, room/3)
		}
		l.panes[paneNow] = rect{0, top, w, max(nowH, now.least)}
		y := top + l.panes[paneNow].h + 1
		left := leftColumn(w)
		l.stack(rect{0, y, left, bottom - y}, needs, 1, leftPanes)
		l.stack(rect{left + columnGap, y, w - left - columnGap, bottom - y}, needs, 1, rightPanes)
		return l
	}
	l.stack(rect{0, top, w, bottom - top}, needs, 0, onePanes)
	return l
}

// leftColumn is how wide the left one of two columns is.
func leftColumn(w int) int { return (w - columnGap) / 2 }

// stack shares the lines of a column among its panes, drawn in this order. Each
// gets its least first, then what is good, then a blank line between each two,
// then all it could show; whoever comes first in the order of the constants is
// first. heading is how many lines each needs for its name.
func (l *layout) stack(r rect, needs [panes]need, heading int, order []pane) {
	room := r.h
	var got [panes]int
	in := func(p pane) bool {
		for _, q := range order {
			if p == q {
				return true
			}
		}
		return false
	}
	raise := func(want func(need) int) {
		for p := range panes {
			if !in(p) || needs[p].full == 0 {
				continue
			}
			n := max(0, want(needs[p])-got[p])
			if needs[p].whole && want(needs[p]) > needs[p].good && n > room {
				continue
			}
			h := 0
			if got[p] == 0 && n > 0 && labels[p] != "" {
				h = heading
			}
			if n = min(n, room-h); n > 0 {
				got[p] += n
				room -= n + h
			}
		}
	}
	raise(func(n need) int { return n.least })
	raise(func(n need) int { return n.good })
	gaps := map[pane]bool{}
	for i, p := range order {
		if i > 0 && got[p] > 0 && room > 0 && anyBefore(order[:i], got) {
			gaps[p] = true
			room--
		}
	}
	raise(func(n need) int { return n.full })
	y := r.y
	for _, p := range order {
		if got[p] == 0 {
			continue
		}
		if gaps[p] {
			y++
		}
		h := got[p]
		if labels[p] != "" {
			h += heading
		}
		l.panes[p] = rect{r.x, y, r.w, h}
		y += h
	}
}

func anyBefore(order []pane, got [panes]int) bool {
	for _, p := range order {
		if got[p] > 0 {
			return true
		}
	}
	return false
}
