package main

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"time"
)

// row is what is printed of one instance. Times are in milliseconds after the
// file was read.
type row struct {
	Instance  string   `json:"instance"`
	Status    status   `json:"status"`
	Makespan  *int     `json:"makespan"` // null without a schedule
	Bound     *int     `json:"bound"`    // null where infeasible
	MsFirst   *float64 `json:"ms_first"` // the first schedule; null without one
	MsBest    *float64 `json:"ms_best"`  // the last better one
	MsTotal   float64  `json:"ms_total"`
	Conflicts int64    `json:"conflicts"`
	// Checked: the schedule, and each found on the way, keeps every rule of the
	// instance; null without one.
	Checked *bool `json:"checked"`
}

func rowOf(name string, a *answer, checked error) row {
	r := row{Instance: name, Status: a.status, MsTotal: ms(a.total), Conflicts: a.conflicts}
	if a.status != infeasible {
		r.Bound = &a.bound
	}
	if a.start != nil {
		ok := checked == nil
		r.Makespan, r.Checked = &a.makespan, &ok
	}
	if n := len(a.found); n > 0 {
		first, best := ms(a.found[0].after), ms(a.found[n-1].after)
		r.MsFirst, r.MsBest = &first, &best
	}
	return r
}

// ms returns milliseconds, to the microsecond.
func ms(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }

// instances returns the instance files at a path, a folder or one file, in the
// order of the numbers in their names.
func instances(path string) ([]string, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	if !info.IsDir() {
		return []string{path}, nil
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		return nil, err
	}
	var names []string
	for _, e := range entries {
		if !e.IsDir() && parserFor(e.Name()) != nil {
			names = append(names, e.Name())
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s: no instance in it, want files that end in .sm or .sch", path)
	}
	slices.SortFunc(names, byNumbers)
	for i := range names {
		names[i] = filepath.Join(path, names[i])
	}
	return names, nil
}

// byNumbers compares names piece by piece, digits as numbers: j301_10 comes after
// j301_9, and j3010_1 after both.
func byNumbers(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		var p, q string
		p, x = piece(x)
		q, y = piece(y)
		m, errM := strconv.Atoi(p)
		n, errN := strconv.Atoi(q)
		c := cmp.Compare(p, q)
		if errM == nil && errN == nil {
			c = cmp.Compare(m, n)
		}
		if c != 0 {
			return c
		}
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

// piece splits off the digits, or the other characters, that s begins with.
func piece(s string) (head, rest string) {
	digit := func(c byte) bool { return '0' <= c && c <= '9' }
	n := 1
	for n < len(s) && digit(s[n]) == digit(s[0]) {
		n++
	}
	return s[:n], s[n:]
}

// folder solves every instance at a path, prints a row of each to out and a
// summary to log. Whatever is wrong with one instance does not keep the others
// from being solved.
//
// Errors: what cannot be read, answers that break their instance's rules or
// contradict what is known.
func folder(path string, limit time.Duration, asJSON bool, now func() time.Time, out, log io.Writer) error {
	files, err := instances(path)
	if err != nil {
		return err
	}
	known, err := readKnown(filepath.Dir(files[0]))
	if err != nil {
		return err
	}
	print := textRow
	if asJSON {
		print = jsonRow[row]
	} else if err := heading(out); err != nil {
		return err
	}
	var wrong []error
	var s summary
	for _, file := range files {
		p, err := readProject(file)
		if err != nil {
			wrong = append(wrong, err)
			continue
		}
		a := answerOf(p, limit, now)
		checked := checkAnswer(p, &a)
		if checked != nil {
			wrong = append(wrong, fmt.Errorf("%s: not a schedule: %w", file, checked))
		}
		against := contradictions(&a, known[p.name])
		for _, c := range against {
			wrong = append(wrong, fmt.Errorf("%s: %s", file, c))
		}
		s.add(&a, known[p.name], len(against) > 0)
		if err := print(out, rowOf(p.name, &a, checked)); err != nil {
			return err
		}
	}
	if err := s.print(log, path, len(known) > 0); err != nil {
		return err
	}
	return errors.Join(wrong...)
}

func jsonRow[T any](out io.Writer, r T) error { return json.NewEncoder(out).Encode(r) }

func heading(out io.Writer) error {
	_, err := fmt.Fprintf(out, "%-14s %-10s %8s %8s %10s %10s %10s %10s  %s\n", "instance", "status", "makespan", "bound", "ms_first", "ms_best", "ms_total", "conflicts", "checked")
	return err
}

func textRow(out io.Writer, r row) error {
	_, err := fmt.Fprintf(out, "%-14s %-10s %8s %8s %10s %10s %10.3f %10d  %s\n", r.Instance, r.Status,
		or(r.Makespan, "%d"), or(r.Bound, "%d"), or(r.MsFirst, "%.3f"), or(r.MsBest, "%.3f"), r.MsTotal, r.Conflicts, or(r.Checked, "%t"))
	return err
}

// or formats a value that may be missing.
func or[T any](v *T, format string) string {
	if v == nil {
		return "-"
	}
	return fmt.Sprintf(format, *v)
}
