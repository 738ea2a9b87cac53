package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
)

// checkCommand says everything that is wrong with a plan.
func checkCommand(w *world) *cobra.Command {
	var o reading
	c := &cobra.Command{
		Use:   "check [FILE]",
		Short: "Say everything that is wrong with a plan",
		Args:  oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			src, err := readSource(args)
			if err != nil {
				return err
			}
			p, ps, err := src.decode(w, o)
			if err != nil {
				return err
			}
			if len(ps) > 0 {
				fmt.Fprint(w.out, clean(planfile.Format(src.name, src.text, ps)))
			}
			if p == nil {
				fmt.Fprintf(w.out, "%s: %s\n", src.name, wrong(errorsIn(ps)))
				return said(exitPlan)
			}
			t := made(c.Context(), p)
			if t.Status == plan.Broken {
				writeImpossible(w.out, planner.Explain(c.Context(), p))
			}
			for _, c := range planner.Conflicts(p, t) {
				writePara(w.out, "", "oven conflict: "+c.Text)
			}
			for _, b := range t.Breaks {
				writePara(w.out, "", breakLine(p, b))
			}
			writeCautions(w.out, p, t.Cautions)
			fmt.Fprintf(w.out, "%s: %s; first step %s, table %s\n", src.name, judge(t)+minded(t), moment(p, first(p, t)), hour(p.Table))
			return verdict(t)
		},
	}
	o.flags(c)
	return c
}

// writeImpossible says why a plan is impossible, and what would resolve it.
func writeImpossible(out io.Writer, x *planner.Impossible) {
	if x == nil {
		return
	}
	writePara(out, "", "impossible: "+x.Text)
	for _, way := range x.Ways {
		writePara(out, "  ", "possible "+way)
	}
}

// breakLine is a break in one line: "18:40 oven: …".
func breakLine(p *plan.Plan, b plan.Break) string {
	var line strings.Builder
	if !b.At.IsZero() {
		line.WriteString(hour(b.At.In(p.Table.Location())) + " ")
	}
	if !b.Kind.Hard() {
		line.WriteString("not as liked: ")
	}
	line.WriteString(b.Text)
	return line.String()
}

// hard counts the broken rules, likings left out.
func hard(t *plan.Timetable) int {
	n := 0
	for _, b := range t.Breaks {
		if b.Kind.Hard() {
			n++
		}
	}
	return n
}

// judge says in a few words what a timetable is worth.
func judge(t *plan.Timetable) string {
	n := hard(t)
	switch {
	case n > 0:
		return wrong(n)
	case t.Status == plan.Broken:
		return "something is wrong"
	case t.Status == plan.Late:
		return "nothing wrong, but a course is late within what it allows"
	}
	return "nothing wrong"
}

// minded says how many cautions are left, after what a timetable is worth.
func minded(t *plan.Timetable) string {
	n := 0
	for _, c := range t.Cautions {
		if c.Accepted == "" {
			n++
		}
	}
	switch n {
	case 0:
		return ""
	case 1:
		return ", but mind the caution"
	}
	return fmt.Sprintf(", but mind the %d cautions", n)
}

// verdict is the error with which a command that showed t ends.
func verdict(t *plan.Timetable) error {
	if hard(t) > 0 || t.Status == plan.Broken {
		return said(exitPlan)
	}
	return nil
}

// first returns when the timetable first asks for something.
func first(p *plan.Plan, t *plan.Timetable) time.Time {
	at := p.Table
	for _, s := range t.Slots {
		at = plan.Earlier(at, s.Start)
	}
	for _, s := range t.Sets {
		at = plan.Earlier(at, s.At)
	}
	return at.In(p.Table.Location())
}
