package main

// How values are put into words, and how words fit the width of a sheet.

import (
	"cmp"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
)

// textWidth is the width of everything that is printed: an ordinary terminal.
const textWidth = 80

// hour prints an instant as the cook reads it: "19:05".
func hour(t time.Time) string { return t.Format("15:04") }

// day prints a date as the cook reads it: "Sat 17 October 2026".
func day(t time.Time) string { return t.Format("Mon 2 January 2006") }

// titleOf is the dinner's title, which a plan may leave out.
func titleOf(p *plan.Plan) string { return cmp.Or(p.Title, "Dinner") }

// moment prints an instant in the plan's zone, with its day where that is not
// the dinner's.
func moment(p *plan.Plan, t time.Time) string {
	t = t.In(p.Table.Location())
	if sameDay(t, p.Table) {
		return hour(t)
	}
	return hour(t) + " on " + day(t)
}

// count prints n of a thing: "1 guest", "8 guests".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// until prints the sign that a step is done: "until 190 °F and deep amber".
func until(u plan.Until, units plan.Units) string {
	var parts []string
	if u.HasTemp {
		parts = append(parts, units.Temp(u.Temp))
	}
	if u.Sign != "" {
		parts = append(parts, u.Sign)
	}
	if parts == nil {
		return ""
	}
	return "until " + strings.Join(parts, " and ")
}

// burners prints what a pot stands on: "large burner", "2 large burners".
func burners(size plan.BurnerSize, n int) string {
	word := "burner"
	if size != plan.AnyBurner {
		word = size.String() + " burner"
	}
	if n > 1 {
		return fmt.Sprintf("%d %ss", n, word)
	}
	return word
}

func sameDay(a, b time.Time) bool {
	ay, am, ad := a.Date()
	by, bm, bd := b.Date()
	return ay == by && am == bm && ad == bd
}

// midnight returns when the day of t begins.
func midnight(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, t.Location())
}

// orTime returns t, or otherwise where t is zero.
func orTime(t, otherwise time.Time) time.Time {
	if t.IsZero() {
		return otherwise
	}
	return t
}

// writePara prints text with every line indented and none wider than textWidth.
func writePara(w io.Writer, indent, text string) {
	for _, l := range wrap(text, textWidth-ansi.StringWidth(indent)) {
		fmt.Fprintf(w, "%s%s\n", indent, l)
	}
}

// wrap breaks text into lines of at most room cells: at spaces, or within a
// word that is longer than a line. It returns at least one line.
func wrap(text string, room int) []string {
	lines := ansi.Wrap(clean(text), room, "")
	return strings.Split(strings.ReplaceAll(lines, noBreak, " "), "\n")
}

// noBreak is a space at which wrap breaks no line.
const noBreak = "\u00a0"

// pad fills text with spaces up to width cells.
func pad(text string, width int) string {
	return text + strings.Repeat(" ", max(0, width-ansi.StringWidth(text)))
}
