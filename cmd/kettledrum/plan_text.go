package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/kept"
	"example.org/kettledrum/plan/run"
)

// Columns of a row: mark, time, who, what, until when.
const (
	timeWidth = 5  // "15:02"
	whoMost   = 10 // longer names are cut
)

// What stands in the column of who where no cook's name does.
const (
	nobody  = "·" // goes by itself
	onTable = "*"
	missing = "?" // somebody is needed, and nobody is free
)

// Until when: a cook works on it so long, or it goes by itself so long and wants
// a cook for the moment in which it is begun.
const (
	workTo = "to"
	endsAt = "ends"
)

// sheetText lays a timetable out in 80 columns.
type sheetText struct {
	w      io.Writer
	p      *plan.Plan
	t      *plan.Timetable
	places *kept.Places
	who    int // width of that column
}

// writeText prints the sessions on the days ahead, the cook-day by the hour, the
// oven's settings, and whatever is broken or longer than liked.
func writeText(w io.Writer, p *plan.Plan, t *plan.Timetable) {
	s := sheetText{w: w, p: p, t: t, places: kept.Of(p, t), who: 1}
	for _, c := range p.Kitchen.Cooks {
		s.who = max(s.who, min(whoMost, ansi.StringWidth(clean(c.Name))))
	}
	rows := s.collect()
	s.header()
	s.signs(rows)
	s.days(rows)
	s.ovens()
	s.load()
	s.breaks("Longer than liked", func(b plan.Break) bool { return !b.Kind.Hard() })
	s.breaks("Broken", func(b plan.Break) bool { return b.Kind.Hard() })
	s.cautions()
}

func (s *sheetText) in(t time.Time) time.Time { return t.In(s.p.Table.Location()) }

// when prints an instant, with its day where that is not the dinner's.
func (s *sheetText) when(t time.Time) string { return run.DayTime(t, s.p.Table, s.p.Table.Location()) }

// header names the dinner, its courses and the last moment to begin.
func (s *sheetText) header() {
	writePara(s.w, "", titleOf(s.p))
	about := day(s.p.Table)
	if s.p.Guests > 0 {
		about = count(s.p.Guests, "guest", "guests") + ", " + about
	}
	if l := s.in(s.t.LatestStart); !l.IsZero() {
		about += ", latest start " + moment(s.p, l)
		// An oven that is on before anybody works is easily overlooked.
		for _, o := range s.t.Sets {
			if !o.Off && !o.At.Before(dayBegins(s.p)) {
				if o.At.Before(l) {
					about += ", oven on at " + moment(s.p, o.At)
				}
				break
			}
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

// row prints one row, what it says broken over as many lines as it takes.
func (s *sheetText) row(r row) {
	mark := " "
	if r.broken {
		mark = "!"
	}
	until := ""
	if !r.until.IsZero() {
		until = workTo
		if r.itself {
			until = endsAt
		}
		until += " " + run.DayTime(r.until, s.in(r.at), s.p.Table.Location())
	}
	room := textWidth - (1 + 1 + timeWidth + 2 + s.who + 2) - (2 + max(len("ends 18:32"), len(until)))
	lines := wrap(r.what, room)
	fmt.Fprintf(s.w, "%s %s  %s  ", mark, hour(s.in(r.at)), pad(r.who, s.who))
	if until == "" {
		fmt.Fprintln(s.w, lines[0])
	} else {
		fmt.Fprintf(s.w, "%s  %s\n", pad(lines[0], room), until)
	}
	indent := strings.Repeat(" ", 2+timeWidth+2+s.who+2)
	for _, l := range lines[1:] {
		fmt.Fprintf(s.w, "%s%s\n", indent, l)
	}
	if r.detail != "" {
		writePara(s.w, indent+"  ", r.detail)
	}
}

// ovens prints the oven's settings once more, together.
func (s *sheetText) ovens() {
	if len(s.t.Sets) == 0 {
		return
	}
	fmt.Fprintf(s.w, "\nOven settings\n")
	for _, o := range s.t.Sets {
		line := fmt.Sprintf("%s  %s", s.when(o.At), s.setting(o))
		if o.For >= 0 {
			line += ", for " + s.name(o.For)
		}
		writePara(s.w, "  ", line)
	}
}

// load prints the busiest ten minutes of each cook.
func (s *sheetText) load() {
	first := true
	for k, c := range s.p.Kitchen.Cooks {
		l, ok := s.t.Busiest(s.p, k)
		if !ok {
			continue
		}
		if first {
			fmt.Fprintf(s.w, "\nBusiest ten minutes\n")
			first = false
		}
		from, to := s.in(l.From), s.in(l.From.Add(plan.LoadSpan))
		writePara(s.w, "  ", fmt.Sprintf("%s–%s  %s: %s to do, at work for %s", s.when(from), hour(to), c.Name, count(l.Calls, "thing", "things"), plan.Spell(l.Work)))
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
			line = s.when(b.At) + "  " + line
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
	writeCautions(s.w, s.p, s.t.Cautions)
}

// signs explains the signs that the rows have in place of a cook.
func (s *sheetText) signs(rows []row) {
	var parts []string
	for _, x := range []struct{ sign, means string }{
		{nobody, "nobody is needed"}, {missing, "nobody is free"}, {onTable, "a course is served"},
	} {
		if slices.ContainsFunc(rows, func(r row) bool { return r.who == x.sign }) {
			parts = append(parts, x.sign+" "+x.means)
		}
	}
	if slices.ContainsFunc(rows, func(r row) bool { return r.itself }) {
		parts = append(parts, workTo+": work until then", endsAt+": begun now, goes by itself")
	}
	writePara(s.w, "  ", strings.Join(parts, ", "))
}

// hand names the cook of a touch.
func (s *sheetText) hand(c int) string {
	if c < 0 {
		return missing
	}
	return ansi.Truncate(clean(s.p.Kitchen.Cooks[c].Name), s.who, "…")
}
