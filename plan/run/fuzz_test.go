package run_test

import (
	"bytes"
	"encoding/json"
	"os"
	"testing"

	"example.org/kettledrum/plan/run"
)

// Whatever a journal holds, the fold takes it or says no, and what it takes can
// be conducted.
func FuzzFold(f *testing.F) {
	golden, err := os.ReadFile("testdata/events.golden")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(golden)
	s := newSupper()
	var own bytes.Buffer
	for _, e := range s.events(s.upTo("19:45", "19:46 undone 5", "19:47 timer 5m x", "19:48 prolonged lamb/roast 10m")...) {
		line, err := json.Marshal(e)
		if err != nil {
			f.Fatal(err)
		}
		own.Write(append(line, '\n'))
	}
	f.Add(own.Bytes())
	f.Fuzz(func(t *testing.T, data []byte) {
		s := newSupper()
		st := s.run(t)
		for _, line := range bytes.Split(data, []byte("\n")) {
			var e run.Event
			if json.Unmarshal(line, &e) != nil {
				continue
			}
			if next, err := st.Apply(e); err == nil {
				st = next
			}
		}
		for _, now := range []string{"14:00", "18:22:30", "23:00"} {
			m := run.Conduct(st, s.At(now))
			for _, e := range run.AllAsPlanned(m) {
				if next, err := st.Apply(e); err == nil {
					st = next
				}
			}
		}
	})
}
