package session

import (
	"encoding/json"
	"fmt"

	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/run"
)

// Load turns the records of a journal into events, each with its number.
//
// Errors: a record that is no event is named by its number.
func Load(recs []journal.Record) ([]run.Event, error) {
	out := make([]run.Event, len(recs))
	for i, r := range recs {
		if err := json.Unmarshal(r.Payload, &out[i]); err != nil {
			return nil, fmt.Errorf("record %d of the journal is no event of a run: %w", r.Seq, err)
		}
		out[i].Seq = r.Seq
	}
	return out, nil
}
