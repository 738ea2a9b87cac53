package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
)

// Columns of a row: mark, time, who, what, until when.
const (
	timeWidth  = 5  // "15:02"
	untilWidth = 8  // "to 18:32"
	whoMost    = 10 // longer names are cut
	nobody     = "·"
)

// row is one line of the timetable, with the details under it.
type row struct {
	at     time.Time
	rank   int // order within a minute
	broken bool
	who    string
	what   string
	until  string
	detail string
}

// Order within a minute: what ends comes before what begins.
const (
	rankEnd = iota
	rankServe
	rankSet
	rankStart
)

// sheetText lays a timetable out in 80 columns.
type sheetText struct {
	w   io.Writer
	p   *plan.Plan
	t   *plan.Timetable
	who int // width of that column
}

// writeText prints the timetable by hour, the oven's settings, and whatever
// is broken or longer than liked.
func writeText(w io.Writer, p *plan.Plan, t *plan.Timetable) {
	s := sheetText{w: w, p: p, t: t, who: 1}
	for _, c := range p.Kitchen.Cooks {
		s.who = max(s.who, min(whoMost, ansi.StringWidth(clean(c.Name))))
	}
	s.header()
	s.rows()
	s.ovens()
	s.breaks("Longer than liked", func(b plan.Break) bool { return !b.Kind.Hard() })
	s.breaks("Broken", func(b plan.Break) bool { return b.Kind.Hard() })
	s.cautions()
}

func (s *sheetText) in(t time.Time) time.Time { return t.In(s.p.Table.Location()) }

// header names the dinner, its courses and the last moment to begin.
func (s *sheetText) header() {
	writePara(s.w, "", titleOf(s.p))
	about := day(s.p.Table)
	if s.p.Guests > 0 {
		about = count(s.p.Guests, "guest", "guests") + ", " + about
	}
	if l := s.in(s.t.LatestStart); !l.IsZero() {
		about += ", latest start " + moment(s.p, l)
		if len(s.t.Sets) > 0 && s.t.Sets[0].At.Before(l) {
			about += ", oven on at " + moment(s.p, s.t.Sets[0].At)
		}
	}
	writePara(s.w, "", about)
	for c, course := range s.p.Courses {
		line := fmt.Sprintf("%s  %s", hour(s.in(s.t.Serves[c])), course.Name)
		if late := s.t.Lateness(s.p, c); late > 0 {
			line += fmt.Sprintf(", %d min late (asked for %s)", plan.Minutes(late), hour(s.p.Asked(c)))
		}
		writePara(s.w, "  ", line)
	}
}

// rows prints everything that happens, a heading for each hour.
func (s *sheetText) rows() {
	rows := s.collect()
	var heading time.Time
	for _, r := range rows {
		at := s.in(r.at)
		if h := at.Add(-time.Duration(at.Minute())*time.Minute - time.Duration(at.Second())*time.Second); !h.Equal(heading) {
			title := hour(h)
			if !sameDay(h, orTime(heading, s.p.Table)) {
				title = day(h) + ", " + title
			}
			heading = h
			fmt.Fprintf(s.w, "\n%s\n", title)
		}
		s.row(r, at)
	}
}

// collect gathers the starts, ends, settings and serves in order of time.
func (s *sheetText) collect() []row {
	var rows []row
	type dial struct {
		oven int
		at   int64 // Unix time
	}
	starter := map[int]int{} // step → cook of its start touch
	setter := map[dial]int{} // setting → cook of its touch
	for _, x := range s.t.Touches {
		switch x.What {
		case plan.TouchStart:
			starter[x.Step] = x.Cook
		case plan.TouchEnd:
			rows = append(rows, row{at: x.At, rank: rankEnd, who: s.cook(x.Cook), what: s.ending(x.Step)})
		case plan.TouchSet:
			setter[dial{x.Oven, x.At.Unix()}] = x.Cook
		}
	}
	for i, slot := range s.t.Slots {
		who := slot.Cook
		if c, ok := starter[i]; ok && who < 0 {
			who = c
		}
		rows = append(rows, row{
			at: slot.Start, rank: rankStart, broken: s.isBroken(i, -1), who: s.cook(who), what: s.name(i),
			until: "to " + hour(s.in(slot.End)), detail: s.detail(i, slot),
		})
	}
	for _, o := range s.t.Sets {
		c, ok := setter[dial{o.Oven, o.At.Unix()}]
		if !ok {
			c = -1
		}
		rows = append(rows, row{at: o.At, rank: rankSet, who: s.cook(c), what: s.setting(o)})
	}
	for c, at := range s.t.Serves {
		what := s.p.Courses[c].Name + " is on the table"
		if late := s.t.Lateness(s.p, c); late > 0 {
			what += fmt.Sprintf(", %d min late", plan.Minutes(late))
		}
		rows = append(rows, row{at: at, rank: rankServe, broken: s.isBroken(-1, c), who: "*", what: what})
	}
	slices.SortStableFunc(rows, func(a, b row) int {
		return cmp.Or(a.at.Compare(b.at), cmp.Compare(a.rank, b.rank))
	})
	return rows
}

// row prints one row, what it says broken over as many lines as it takes.
func (s *sheetText) row(r row, at time.Time) {
	mark := " "
	if r.broken {
		mark = "!"
	}
	room := textWidth - (1 + 1 + timeWidth + 2 + s.who + 2) - (2 + untilWidth)
	lines := wrap(r.what, room)
	fmt.Fprintf(s.w, "%s %s  %s  ", mark, hour(at), pad(r.who, s.who))
	if r.until == "" {
		fmt.Fprintln(s.w, lines[0])
	} else {
		fmt.Fprintf(s.w, "%s  %s\n", pad(lines[0], room), r.until)
	}
	indent := strings.Repeat(" ", 2+timeWidth+2+s.who+2)
	for _, l := range lines[1:] {
		fmt.Fprintf(s.w, "%s%s\n", indent, l)
	}
	if r.detail != "" {
		writePara(s.w, indent+"  ", r.detail)
	}
}

// detail says where step i happens, what it needs and how long it can wait.
func (s *sheetText) detail(i int, slot plan.Slot) string {
	st := &s.p.Steps[i]
	var parts []string
	if st.Oven != nil && slot.Oven >= 0 {
		parts = append(parts, fmt.Sprintf("%s %s, %s", s.p.Kitchen.Ovens[slot.Oven].Name,
			s.p.Units.Temp(st.Oven.At), shelves(st.Oven.Space)))
	}
	if st.Burner != nil {
		parts = append(parts, burners(slot.Burner, st.Burner.Count))
	}
	for _, u := range st.Uses {
		name := s.p.Kitchen.Tools[u.Tool].Name
		if u.Count > 1 {
			name = fmt.Sprintf("%d × %s", u.Count, name)
		}
		parts = append(parts, name)
	}
	if until := until(st.Until, s.p.Units); until != "" {
		parts = append(parts, until)
	}
	if st.Hands == plan.Tied {
		parts = append(parts, "cannot be left")
	}
	if slot.Slack >= time.Minute {
		parts = append(parts, "can wait "+span(slot.Slack))
	}
	// A part is not broken over two lines where it can be helped.
	for i := range parts {
		parts[i] = strings.ReplaceAll(parts[i], " ", noBreak)
	}
	return strings.Join(parts, "; ")
}

// ovens prints the oven's settings once more, together.
func (s *sheetText) ovens() {
	if len(s.t.Sets) == 0 {
		return
	}
	fmt.Fprintf(s.w, "\nOven settings\n")
	for _, o := range s.t.Sets {
		line := fmt.Sprintf("%s  %s", hour(s.in(o.At)), s.setting(o))
		if o.For >= 0 {
			line += ", for " + s.name(o.For)
		}
		writePara(s.w, "  ", line)
	}
}

// breaks prints the breaks that pick, under a title.
func (s *sheetText) breaks(title string, pick func(plan.Break) bool) {
	first := true
	for _, b := range s.t.Breaks {
		if !pick(b) {
			continue
		}
		if first {
			fmt.Fprintf(s.w, "\n%s\n", title)
			first = false
		}
		line := b.Text
		if !b.At.IsZero() {
			line = hour(s.in(b.At)) + "  " + line
		}
		if b.Kind.Hard() {
			writePara(s.w, "! ", line)
		} else {
			writePara(s.w, "  ", line)
		}
	}
}

func (s *sheetText) cautions() {
	if len(s.t.Cautions) == 0 {
		return
	}
	fmt.Fprintf(s.w, "\nCautions\n")
	for _, c := range s.t.Cautions {
		writePara(s.w, "  ", fmt.Sprintf("%s (%s)", c.Text, c.Source))
	}
}

func (s *sheetText) cook(c int) string {
	if c < 0 {
		return nobody
	}
	return ansi.Truncate(clean(s.p.Kitchen.Cooks[c].Name), s.who, "…")
}

// name is the step as the cook finds it: its dish and what to do.
func (s *sheetText) name(i int) string {
	st := &s.p.Steps[i]
	return s.p.Dishes[st.Dish].Name + ": " + st.Do
}

// ending says what the last minute of step i asks for.
func (s *sheetText) ending(i int) string {
	dish := s.p.Dishes[s.p.Steps[i].Dish].Name
	switch {
	case s.p.Steps[i].Oven != nil:
		return dish + ": out of the oven"
	case s.p.Steps[i].Burner != nil:
		return dish + ": off the burner"
	}
	return s.name(i) + ": end"
}

func (s *sheetText) setting(o plan.OvenSet) string {
	name := s.p.Kitchen.Ovens[o.Oven].Name
	if o.Off {
		return name + ": switch off"
	}
	return fmt.Sprintf("%s: set to %s, ready %s", name, s.p.Units.Temp(o.To), hour(s.in(o.Ready)))
}

// isBroken reports whether some rule of step i or course c is broken.
func (s *sheetText) isBroken(i, c int) bool {
	return slices.ContainsFunc(s.t.Breaks, func(b plan.Break) bool {
		return b.Kind.Hard() && (i >= 0 && b.Step == i || c >= 0 && b.Course == c)
	})
}
