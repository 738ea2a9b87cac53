package plan

import (
	"testing"
	"time"
)

func TestBusiest(t *testing.T) {
	t.Parallel()
	at := func(m int) time.Time { return time.Date(2026, 10, 17, 18, m, 0, 0, time.UTC) }
	p := &Plan{Steps: []Step{{Hands: Busy}, {Hands: Tied}, {Hands: Free}, {Hands: Busy}}}
	work := func(from, to, cook int) Slot { return Slot{Start: at(from), End: at(to), Cook: cook} }
	touch := func(m, cook int) Touch { return Touch{What: TouchStart, Step: 2, At: at(m), Cook: cook} }
	for name, tt := range map[string]struct {
		t    Timetable
		want Load
		ok   bool
	}{
		"nothing":        {Timetable{Slots: []Slot{work(0, 5, 1)}}, Load{}, false},
		"free-is-none":   {Timetable{Slots: []Slot{{Cook: -1}, {Cook: -1}, work(0, 5, 0)}}, Load{}, false},
		"skipped":        {Timetable{Slots: []Slot{{Cook: 0, Progress: Skipped}}}, Load{}, false},
		"one":            {Timetable{Slots: []Slot{work(0, 25, 0)}}, Load{at(0), 1, 10 * time.Minute}, true},
		"most-calls":     {Timetable{Slots: []Slot{work(0, 25, 0)}, Touches: []Touch{touch(40, 0), touch(45, 0), touch(46, 1)}}, Load{at(40), 2, 2 * time.Minute}, true},
		"then-most-work": {Timetable{Slots: []Slot{work(0, 1, 0), work(20, 25, 0)}}, Load{at(20), 1, 5 * time.Minute}, true},
		"then-the-first": {Timetable{Slots: []Slot{work(20, 25, 0), work(0, 5, 0)}}, Load{at(0), 1, 5 * time.Minute}, true},
		"ends-at-ten":    {Timetable{Touches: []Touch{touch(0, 0), touch(10, 0)}}, Load{at(0), 1, time.Minute}, true},
		"begun-before":   {Timetable{Slots: []Slot{work(0, 15, 0)}, Touches: []Touch{touch(12, 0), touch(14, 0)}}, Load{at(12), 2, 5 * time.Minute}, true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			if got, ok := tt.t.Busiest(p, 0); got != tt.want || ok != tt.ok {
				t.Errorf("got %+v, %v; want %+v, %v", got, ok, tt.want, tt.ok)
			}
		})
	}
}
