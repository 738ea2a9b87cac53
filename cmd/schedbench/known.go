package main

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
)

// known is what is known of an instance from elsewhere.
type known struct {
	infeasible bool // no schedule exists
	best       int  // the best makespan known, where feasible
	proven     bool // nothing better exists
	lower      int  // no schedule is shorter; 0 where unknown
}

// readKnown reads best.csv (instance,best,proven) and lower.csv (instance,lower)
// of a folder. A folder without them has an empty map.
//
// Errors: those of reading, or file:line: what is wrong, what would be right.
func readKnown(dir string) (map[string]known, error) {
	all := map[string]known{}
	best := filepath.Join(dir, "best.csv")
	err := eachRow(best, 3, func(row []string) error {
		var k known
		switch row[2] {
		case "yes":
			k.proven = true
		case "no":
		default:
			return fmt.Errorf("%q, want yes or no for proven", row[2])
		}
		if row[1] == string(infeasible) {
			k.infeasible = true
		} else {
			var err error
			if k.best, err = strconv.Atoi(row[1]); err != nil || k.best < 0 {
				return fmt.Errorf("%q, want a makespan or the word infeasible", row[1])
			}
		}
		if k.proven && !k.infeasible {
			k.lower = k.best
		}
		all[row[0]] = k
		return nil
	})
	if err != nil {
		return nil, err
	}
	return all, eachRow(filepath.Join(dir, "lower.csv"), 2, func(row []string) error {
		k, ok := all[row[0]]
		if !ok {
			return fmt.Errorf("%s is not in best.csv", row[0])
		}
		lower, err := strconv.Atoi(row[1])
		if err != nil {
			return fmt.Errorf("%q, want a lower bound", row[1])
		}
		k.lower = max(k.lower, lower)
		all[row[0]] = k
		return nil
	})
}

// eachRow calls do for every row of a CSV file but its heading. There may be no
// such file.
func eachRow(path string, columns int, do func(row []string) error) error {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = columns
	rows, err := r.ReadAll()
	if err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	for i, row := range rows[min(1, len(rows)):] {
		if err := do(row); err != nil {
			return fmt.Errorf("%s:%d: %w", path, i+2, err)
		}
	}
	return nil
}

// contradictions returns what in an answer cannot be true together with what is
// known, or with itself. None is the only good number.
func contradictions(a *answer, k known) (out []string) {
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	has := a.status == optimal || a.status == feasible
	if has && a.bound > a.makespan {
		say("a makespan of %d below its own bound %d", a.makespan, a.bound)
	}
	if a.status == optimal && a.bound != a.makespan {
		say("called optimal at %d with a bound of %d", a.makespan, a.bound)
	}
	if a.status == infeasible && len(a.found) > 0 {
		say("called infeasible after a schedule of %d", a.found[0].makespan)
	}
	switch {
	case k == known{}:
	case k.infeasible:
		if has && k.proven {
			say("a schedule of %d, none is known to exist", a.makespan)
		}
	case a.status == infeasible:
		say("called infeasible, a schedule of %d is known", k.best)
	default:
		if a.bound > k.best {
			say("a bound of %d, a schedule of %d is known", a.bound, k.best)
		}
		if a.status == optimal && a.makespan > k.best {
			say("%d called optimal, a schedule of %d is known", a.makespan, k.best)
		}
		if has && a.makespan < k.lower {
			say("a schedule of %d, the lower bound is %d", a.makespan, k.lower)
		}
	}
	return out
}
