package ring_test

import (
	"context"
	"fmt"
	"regexp"
	"testing"
	"time"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
	"example.org/kettledrum/sounds/ring"
)

// evening is a whole dinner on a clock that goes second by second, with a cook who
// answers as the table says.
type evening struct {
	s     *session.Session
	c     *clocktest.Manual
	after int // seconds that the cook lets the most urgent cue wait; below zero: for ever
	audit audit
	rule  ring.State
	waits map[string]int // how long each cue has been the most urgent
	rings int
}

func open(t *testing.T, name string) *evening {
	t.Helper()
	src, ok := examples.Get(name)
	if !ok {
		t.Fatalf("no example %q", name)
	}
	p, ps := planfile.Decode(src, planfile.Options{
		Serve: "2026-10-17 19:00", Now: time.Date(2026, 10, 17, 8, 0, 0, 0, time.UTC), Local: time.UTC,
	})
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	c := clocktest.New(p.CookDay().Add(12 * time.Hour))
	s, err := session.Open(context.Background(), session.Config{
		Log: &journal.Memory{}, Plan: p, Copy: run.PlanCopy{Name: name, Source: string(src), Table: p.Table, Zone: "UTC"},
		Clock: c, Make: planner.Make, Again: planner.Again, Verify: verify.Check, Made: p.CookDay(),
	})
	if err != nil {
		t.Fatal(err)
	}
	return &evening{s: s, c: c, audit: audit{t: t, unheard: map[string]run.Class{}}, waits: map[string]int{}}
}

// audit holds the rule without knowing how it works, from what a listener would
// notice.
type audit struct {
	t       *testing.T
	known   map[string]run.Class // open a second ago
	unheard map[string]run.Class // came up, or became more urgent, and nothing rang for it yet
	once    int                  // cues that may ring once only
	onces   int                  // rings of such a class
	last    time.Time
}

// second looks at one second: what is open, and what rang.
func (a *audit) second(now time.Time, open map[string]run.Class, silent bool, r *ring.Ring) {
	a.t.Helper()
	for id, class := range open {
		if was, ok := a.known[id]; !ok || class < was {
			a.unheard[id] = class
			if class >= run.Soon {
				a.once++
			}
		}
	}
	for id := range a.unheard {
		if _, ok := open[id]; !ok {
			delete(a.unheard, id) // answered in time
		}
	}
	a.known = open
	fail := func(format string, args ...any) {
		a.t.Errorf("%s: %s; open: %v", now.Format("15:04:05"), fmt.Sprintf(format, args...), open)
	}
	rested := a.last.IsZero() || now.Sub(a.last) >= 10*time.Second
	if r == nil {
		for id, class := range a.unheard {
			if !silent && (rested || class == run.Danger) {
				fail("nothing rings for %s", id)
			}
		}
		return
	}
	found := false
	for _, class := range open {
		found = found || class == r.Class
	}
	switch {
	case !found:
		fail("rings %v, and no such cue is open: it was answered", r.Class)
	case silent:
		fail("rings in the silence")
	case !rested && r.Class != run.Danger:
		fail("rings %v after the ring before", now.Sub(a.last))
	}
	for id, class := range a.unheard {
		if class < r.Class {
			fail("rings %v, and %s is more urgent", r.Class, id)
		}
	}
	if r.Class >= run.Soon {
		if a.onces++; a.onces > a.once {
			fail("%v rings again", r.Class)
		}
	}
	clear(a.unheard)
	a.last = now
}

// idle is how far the clock goes while nothing is open.
const idle = 10 * time.Second

// minutes are those at the end of the ID of what is late.
var minutes = regexp.MustCompile(`^((late|conflict):.*):\d+$`)

// second is one second of the evening; extra cues are open besides those of the
// dinner.
func (e *evening) second(silence func(*evening) bool, extra map[string]run.Class) bool {
	step := time.Second
	if len(e.audit.known) == 0 {
		step = idle
	}
	now := e.c.Advance(step)
	if now.Second() == 0 {
		if _, err := e.s.Tick(); err != nil {
			e.audit.t.Fatal(err)
		}
	}
	st := e.s.State()
	m := run.Conduct(st, now)
	if m.Finished && len(m.Unconfirmed) == 0 {
		return false
	}
	if e.after >= 0 && len(m.Cues) > 0 {
		c := m.Cues[0]
		if e.waits[c.ID]++; e.waits[c.ID] > e.after && c.Class != run.Note {
			events := c.Answer
			if len(events) == 0 {
				events = []run.Event{{Kind: run.Acknowledged, Cue: c.ID}}
			}
			if _, err := e.s.Record(events...); err != nil {
				e.audit.t.Fatal(err)
			}
			st = e.s.State()
			m = run.Conduct(st, now)
		}
	}
	heard := map[string]run.Class{}
	for _, c := range m.Cues {
		if _, seen := st.Acked[c.ID]; !seen {
			heard[minutes.ReplaceAllString(c.ID, "$1")] = c.Class
		}
	}
	for _, u := range m.Unconfirmed {
		heard[u.Cue.ID] = u.Cue.Class
	}
	cues := ring.Open(st, m)
	for id, class := range extra {
		heard[id] = class
		cues = append(cues, ring.Cue{ID: id, Class: class})
	}
	if silence(e) {
		e.rule = e.rule.Hush(now)
	}
	silent := e.rule.Silent(now)
	var r *ring.Ring
	if e.rule, r = e.rule.Step(now, cues); r != nil {
		e.rings++
	}
	e.audit.second(now, heard, silent, r)
	return true
}

// TestWholeDinner: over whole dinners and cooks of all kinds no cue is lost, none
// rings after it was answered, and the rule's promises hold.
func TestWholeDinner(t *testing.T) {
	t.Parallel()
	never := func(*evening) bool { return false }
	clock := func(e *evening) string { return e.c.Now().Format("15:04:05") }
	tests := []struct {
		name    string
		dinner  string
		after   int
		silence func(*evening) bool
		jump    map[string]time.Duration // the laptop sleeps
		danger  [2]string                // a danger is open between these times
		least   int                      // rings at least
	}{
		{"prompt", "harvest", 4, never, nil, [2]string{}, 40},
		{"slow", "weeknight", 100, never, nil, [2]string{}, 10},
		{"no-answer", "weeknight", -1, never, nil, [2]string{}, 10},
		{"sleeps", "weeknight", 30, never, map[string]time.Duration{"18:28:00": 12 * time.Minute, "18:50:30": 6 * time.Minute}, [2]string{}, 8},
		{"silences", "weeknight", 60, func(e *evening) bool { return e.c.Now().Minute()%12 == 0 && e.c.Now().Second() == 20 }, nil, [2]string{}, 10},
		{"danger", "weeknight", 30, never, nil, [2]string{"18:20:00", "18:24:00"}, 15},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			e := open(t, tt.dinner)
			e.after = tt.after
			for until := e.c.Now().Add(12 * time.Hour); e.c.Now().Before(until); {
				if d := tt.jump[clock(e)]; d > 0 {
					e.c.Advance(d)
				}
				var extra map[string]run.Class
				if now := clock(e); now >= tt.danger[0] && now < tt.danger[1] {
					extra = map[string]run.Class{"danger": run.Danger}
				}
				if !e.second(tt.silence, extra) {
					break
				}
			}
			t.Logf("%d rings", e.rings)
			if e.rings < tt.least {
				t.Errorf("%d rings in the whole evening, want at least %d", e.rings, tt.least)
			}
		})
	}
}
