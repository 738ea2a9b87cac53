package main

import (
	"bytes"
	_ "embed"
	"encoding/json"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/planfile"
)

// timetableSchema describes what `plan --json` prints: see planJSON.
//
//go:embed timetable.schema.json
var timetableSchema []byte

// rehearsalOnly describes what `rehearse --json` prints, but for the timetable in
// it: see rehearsalJSON and rehearsalSchema.
//
//go:embed rehearsal.schema.json
var rehearsalOnly []byte

// riskSchema describes what `rehearse --runs N --json` prints: see riskJSON.
//
//go:embed risk.schema.json
var riskSchema []byte

// schemaCommand prints a JSON Schema.
func schemaCommand(w *world) *cobra.Command {
	var timetable, rehearsal, chances, mishaps, list, back bool
	c := &cobra.Command{
		Use:   "schema",
		Short: "Print the JSON Schema of a plan file, for editors that check as one writes",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			text := planfile.Schema()
			switch {
			case timetable:
				text = timetableSchema
			case rehearsal:
				text = rehearsalSchema()
			case chances:
				text = riskSchema
			case mishaps:
				text = planfile.ScriptSchema()
			case list:
				text = shopSchema
			case back:
				text = reviewSchema
			}
			w.out.Write(text)
			return nil
		},
	}
	c.Flags().BoolVar(&timetable, "timetable", false, "the schema of what plan --json prints instead")
	c.Flags().BoolVar(&rehearsal, "rehearsal", false, "the schema of what rehearse --json prints instead")
	c.Flags().BoolVar(&chances, "risk", false, "the schema of what rehearse --runs N --json prints instead")
	c.Flags().BoolVar(&mishaps, "mishaps", false, "the schema of a mishap script instead")
	c.Flags().BoolVar(&list, "shop", false, "the schema of what shop --json prints instead")
	c.Flags().BoolVar(&back, "review", false, "the schema of what review --json prints instead")
	c.MarkFlagsMutuallyExclusive("timetable", "rehearsal", "risk", "mishaps", "shop", "review")
	return c
}

// rehearsalSchema returns rehearsalOnly with the timetable's schema, and what that
// refers to, among its definitions.
func rehearsalSchema() []byte {
	var t struct {
		Description json.RawMessage `json:"description"`
		Required    json.RawMessage `json:"required"`
		Properties  json.RawMessage `json:"properties"`
		Defs        json.RawMessage `json:"$defs"`
	}
	if err := json.Unmarshal(timetableSchema, &t); err != nil {
		panic("timetable.schema.json: " + err.Error())
	}
	shared := bytes.TrimSuffix(bytes.TrimPrefix(t.Defs, []byte("{")), []byte("}"))
	with := bytes.Join([][]byte{
		[]byte(`"timetable":{"description":`), t.Description, []byte(`,"type":"object","additionalProperties":false,"required":`), t.Required,
		[]byte(`,"properties":`), t.Properties, []byte("},"), shared,
	}, nil)
	var out bytes.Buffer
	if err := json.Indent(&out, bytes.Replace(rehearsalOnly, []byte(`"timetable": {}`), with, 1), "", "  "); err != nil {
		panic("rehearsal.schema.json: " + err.Error())
	}
	return out.Bytes()
}
