package main

import (
	_ "embed"
	"errors"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/shop"
)

// shopSchema describes what `shop --json` prints: see shop.List.
//
//go:embed shop.schema.json
var shopSchema []byte

// shopCommand prints the shopping list.
func shopCommand(w *world) *cobra.Command {
	var o reading
	var asJSON, bare bool
	c := &cobra.Command{
		Use:   "shop [FILE]",
		Short: "Print the shopping list: scaled to the guests, summed, by when it is needed",
		Args:  oneFile,
		RunE: func(c *cobra.Command, args []string) error {
			if asJSON && bare {
				return fail(exitUse, errors.New("--json and --text ask for two things at once"), "leave one of them out")
			}
			src, err := readSource(args)
			if err != nil {
				return err
			}
			p, err := src.load(w, o)
			if err != nil {
				return err
			}
			t := made(c.Context(), p)
			if t.Status == plan.Broken {
				w.msg.say("the timetable breaks rules of the plan, so times are those of the nearest one")
				w.msg.hint("%s check says which", program)
			}
			l := shop.Make(p, t)
			if larger := shop.Larger(p); larger != nil && !bare {
				l.Judge(larger, made(c.Context(), larger), t)
			}
			switch {
			case asJSON:
				writeJSON(w.out, l)
			case bare:
				writeShopBare(w.out, l)
			default:
				writeShop(w.out, p, l)
			}
			return nil
		},
	}
	o.flags(c)
	c.Flags().BoolVar(&asJSON, "json", false, "print JSON instead of text")
	c.Flags().BoolVar(&bare, "text", false, "a line for each thing and nothing else, to paste into a message")
	return c
}
