package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// sessionConfig is what every session is made of, live or rehearsed.
func sessionConfig(c clock.Clock, log session.Log) session.Config {
	return session.Config{Log: log, Clock: c, Make: made, Again: planner.Again, Verify: verify.Check}
}

// underWay returns the folder of the run of the plan file key (of any, where it is
// empty) that is not yet
// served to the end and whose table is nearest to now. A run whose table is long
// past is over; one that is ahead was opened when its first step was near.
func underWay(state, key string, now time.Time) (dir string, ok bool) {
	dirs, _ := filepath.Glob(filepath.Join(state, "runs", "*"))
	nearest := time.Duration(1<<63 - 1)
	for _, d := range dirs {
		events, err := readRun(d)
		if err != nil {
			continue
		}
		was, err := copyIn(events)
		if err != nil || key != "" && was.Name != key || served(events) {
			continue
		}
		if now.Sub(was.Table) > soonest {
			continue
		}
		if off := was.Table.Sub(now).Abs(); off <= nearest {
			nearest, dir, ok = off, d, true
		}
	}
	return dir, ok
}

// begun reports whether the run in dir has a past.
func begun(dir string) bool {
	events, err := readRun(dir)
	return err != nil && !errors.Is(err, os.ErrNotExist) || len(events) > 0
}

// readRun reads the events of the run in dir and changes nothing. Of a damaged
// journal it returns what comes before the damage.
func readRun(dir string) ([]run.Event, error) {
	recs, _, err := journal.Read(journal.OS{}, dir)
	if err != nil && !errors.As(err, new(*journal.DamagedError)) {
		return nil, err
	}
	return session.Load(recs)
}

// copyIn returns the plan that a run was opened with.
func copyIn(events []run.Event) (*run.PlanCopy, error) {
	if len(events) == 0 || events[0].Plan == nil {
		return nil, errors.New("the journal does not begin with a plan")
	}
	return events[0].Plan, nil
}

// served reports whether the last courses of a run were served, as far as a
// look at its events tells: one that undid a serve counts as not served.
func served(events []run.Event) bool {
	was, err := copyIn(events)
	if err != nil {
		return false
	}
	p, ps := decodeCopy(was, planfile.Options{})
	if ps.HasErrors() {
		return false
	}
	s, err := run.Fold(p, events)
	if err != nil {
		return false
	}
	for _, c := range s.Courses {
		if c.Served.IsZero() {
			return false
		}
	}
	return true
}

// fromCopy reads the plan out of a journal.
func fromCopy(w *world, was *run.PlanCopy) (*plan.Plan, error) {
	p, ps := decodeCopy(was, planfile.Options{Now: w.clock.Now(), Locale: w.locale})
	if ps.HasErrors() {
		return nil, fmt.Errorf("the plan in the journal cannot be read by this kettledrum (%s): %w", version(), ps)
	}
	return p, nil
}

// decodeCopy reads the plan of a run, in its own zone, at its own table.
func decodeCopy(was *run.PlanCopy, o planfile.Options) (*plan.Plan, plan.Problems) {
	zone, err := time.LoadLocation(was.Zone)
	if err != nil {
		_, offset := was.Table.Zone()
		zone = time.FixedZone(was.Zone, offset)
	}
	o.Local, o.Serve = zone, was.Table.Format(time.RFC3339)
	o.Open = func(name string) ([]byte, error) {
		if text, ok := was.Files[name]; ok {
			return []byte(text), nil
		}
		return nil, errors.New("the journal does not hold it")
	}
	p, ps := planfile.Decode([]byte(was.Source), o)
	if p != nil && was.Cautious {
		p = p.Cautious()
	}
	return p, ps
}

// shellWord quotes a file name for a POSIX shell where it needs it.
func shellWord(s string) string {
	if strings.Trim(s, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-./+:@%") == "" {
		return s
	}
	return "'" + strings.ReplaceAll(s, "'", `'\''`) + "'"
}
