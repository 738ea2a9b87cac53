package main

import (
	_ "embed"
	"errors"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/planfile"
)

// timetableSchema describes what `plan --json` prints: see planJSON.
//
//go:embed timetable.schema.json
var timetableSchema []byte

// schemaCommand prints a JSON Schema.
func schemaCommand(w *world) *cobra.Command {
	var timetable, list bool
	c := &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of a plan file, for editors that check as one writes",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			text := planfile.Schema()
			switch {
			case timetable && list:
				return fail(exitUse, errors.New("--timetable and --shop ask for two things at once"), "leave one of them out")
			case timetable:
				text = timetableSchema
			case list:
				text = shopSchema
			}
			w.out.Write(text)
			return nil
		},
	}
	c.Flags().BoolVar(&timetable, "timetable", false, "the schema of what plan --json prints instead")
	c.Flags().BoolVar(&list, "shop", false, "the schema of what shop --json prints instead")
	return c
}
