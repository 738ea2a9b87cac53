package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planner"
)

// planCommand prints the timetable.
func planCommand(w *world) *cobra.Command {
	var o reading
	var asJSON bool
	c := &cobra.Command{
		Use:   "plan [FILE]",
		Short: "Print the timetable: what to do when, oven settings, latest start",
		Args:  oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			src, err := readSource(args)
			if err != nil {
				return err
			}
			p, err := src.load(w, o)
			if err != nil {
				return err
			}
			x := o.planned(c.Context(), w, p)
			t := x.table
			if asJSON {
				v := viewJSON(p, t)
				v.Sure = viewSure(x)
				writeJSON(w.out, v)
			} else {
				writeText(w.out, p, t)
				writeSure(w.out, x)
				if t.Status == plan.Broken {
					fmt.Fprintln(w.out)
					writeImpossible(w.out, planner.Explain(c.Context(), p))
				}
			}
			if x.sure != nil && !x.sure.Reached {
				return said(exitPlan)
			}
			return verdict(t)
		},
	}
	o.flags(c)
	o.sureFlag(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON instead of text")
	return c
}
