package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/shop"
)

// amountMost is the width of the column of amounts; longer ones take a line.
const amountMost = 22

// writeShop prints the list by trips, then what to thaw, then what does not scale.
func writeShop(w io.Writer, p *plan.Plan, l shop.List) {
	writePara(w, "", "Shopping for "+titleOf(p))
	about := day(p.Table) + ", " + hour(p.Table)
	if p.Guests > 0 {
		about = count(p.Guests, "guest", "guests") + ", " + about
	}
	writePara(w, "", about)
	if len(l.Trips) == 0 {
		writePara(w, "", "no dish of this plan says what it takes; write it under `ingredients`")
	}
	if slices.ContainsFunc(l.Trips, func(t shop.Trip) bool {
		return slices.ContainsFunc(t.Items, func(it shop.Item) bool { return !sameDay(it.By, t.By) })
	}) {
		writePara(w, "", "a day in brackets is when it is needed")
	}
	for _, trip := range l.Trips {
		title := "Buy by " + dayAndHour(trip.By)
		switch {
		case trip.From == nil:
		case sameDay(*trip.From, trip.By):
			title = "Buy on " + weekday(trip.By) + ", by " + hour(trip.By)
		default:
			title += ", not before " + weekday(*trip.From)
		}
		fmt.Fprintln(w)
		writePara(w, "", title)
		for _, it := range trip.Items {
			writeItem(w, trip, it)
		}
	}
	if len(l.Thaw) > 0 {
		fmt.Fprintf(w, "\nTake out of the freezer\n")
		for _, t := range l.Thaw {
			writePara(w, "  ", fmt.Sprintf("by %s: %s, for %s, needed %s; %s (%s)", dayAndHour(t.Out), t.Name, t.Dish, dayAndHour(t.Needed), t.Text, t.Source))
		}
	}
	if len(l.Notes) > 0 {
		fmt.Fprintf(w, "\nWhat the numbers do not say\n")
		for _, n := range l.Notes {
			if n.Dish != "" {
				writePara(w, "  ", n.Dish+": "+n.Text)
			} else {
				writePara(w, "  ", n.Text)
			}
		}
	}
}

// dayAndHour prints an instant of days ahead: "Thursday 15 October, 19:00".
func dayAndHour(t time.Time) string { return weekday(t) + ", " + hour(t) }

// writeItem prints one thing: how much, what, for which dishes.
func writeItem(w io.Writer, trip shop.Trip, it shop.Item) {
	how := amounts(it)
	what := it.Name + extras(it)
	var dishes []string
	for _, u := range it.For {
		if !slices.Contains(dishes, u.Dish) {
			dishes = append(dishes, u.Dish)
		}
	}
	what += ": " + strings.Join(dishes, ", ")
	if !sameDay(it.By, trip.By) {
		what += " (" + it.By.Format("Monday") + ")"
	}
	const indent = "  "
	if ansi.StringWidth(how) > amountMost {
		writePara(w, indent, how)
		how = ""
	}
	lines := wrap(what, textWidth-len(indent)-amountMost-1)
	for i, line := range lines {
		if i > 0 {
			how = ""
		}
		fmt.Fprintf(w, "%s%s %s\n", indent, pad(clean(how), amountMost), line)
	}
	if it.From != nil && trip.From != nil && it.From.Equal(*trip.From) {
		writePara(w, indent+strings.Repeat(" ", amountMost+1), it.Why)
	}
}

// amounts joins the amounts of a thing; those in different measures stay apart.
func amounts(it shop.Item) string {
	var parts []string
	for _, a := range it.Amounts {
		parts = append(parts, a.Text)
	}
	if len(parts) == 0 {
		return "some"
	}
	if it.More {
		parts = append(parts, "more")
	}
	return strings.Join(parts, " + ")
}

// extras says in brackets what else is to know of a thing.
func extras(it shop.Item) string {
	var parts []string
	if it.Frozen && !strings.Contains(strings.ToLower(it.Name), "frozen") {
		parts = append(parts, "frozen")
	}
	if it.Optional {
		parts = append(parts, "optional")
	}
	if parts == nil {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// writeShopBare prints a line for each thing, without columns and widths.
func writeShopBare(w io.Writer, l shop.List) {
	for i, trip := range l.Trips {
		if i > 0 {
			fmt.Fprintln(w)
		}
		if len(l.Trips) > 1 {
			fmt.Fprintln(w, clean("by "+dayAndHour(trip.By)))
		}
		for _, it := range trip.Items {
			line := it.Name + extras(it)
			if how := amounts(it); how != "some" {
				line = how + " " + line
			}
			fmt.Fprintln(w, clean(line))
		}
	}
}
