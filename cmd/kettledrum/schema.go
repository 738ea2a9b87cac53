package main

import (
	_ "embed"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/planfile"
)

// timetableSchema describes what `plan --json` prints: see planJSON.
//
//go:embed timetable.schema.json
var timetableSchema []byte

// schemaCommand prints a JSON Schema.
func schemaCommand(w *world) *cobra.Command {
	var timetable bool
	c := &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of a plan file, for editors that check as one writes",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			text := planfile.Schema()
			if timetable {
				text = timetableSchema
			}
			w.out.Write(text)
			return nil
		},
	}
	c.Flags().BoolVar(&timetable, "timetable", false, "the schema of what plan --json prints instead")
	return c
}
