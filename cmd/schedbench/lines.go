package main

import (
	"fmt"
	"strconv"
	"strings"
)

// lines walks through the rows of an instance file and makes errors that name
// the place. Line ends may be LF or CRLF.
type lines struct {
	name string
	rows []string
	at   int // line number of the row last returned, from 1
}

func newLines(name, text string) *lines {
	text = strings.ReplaceAll(text, "\r\n", "\n")
	return &lines{name: name, rows: strings.Split(strings.TrimRight(text, "\n\x1a"), "\n")}
}

// next returns the next row; want says what it should be, for the error.
func (l *lines) next(want string) (string, error) {
	if l.at >= len(l.rows) {
		return "", fmt.Errorf("%s:%d: the file ends, want %s", l.name, l.at, want)
	}
	l.at++
	return l.rows[l.at-1], nil
}

// fail returns an error at the row last returned.
func (l *lines) fail(format string, args ...any) error {
	return fmt.Errorf("%s:%d: %s", l.name, l.at, fmt.Sprintf(format, args...))
}

// numbers returns the next row as whole numbers.
func (l *lines) numbers(want string) ([]int, error) {
	row, err := l.next(want)
	if err != nil {
		return nil, err
	}
	words := strings.Fields(row)
	out := make([]int, len(words))
	for i, w := range words {
		if out[i], err = l.number(w, want); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// number reads one whole number of reasonable size.
func (l *lines) number(word, want string) (int, error) {
	n, err := strconv.Atoi(word)
	if err != nil {
		return 0, l.fail("%q is no whole number, want %s", word, want)
	}
	if n > maxNumber || n < -maxNumber {
		return 0, l.fail("%d is out of range, want at most %d either way", n, maxNumber)
	}
	return n, nil
}

// job reads a row that begins with the number of a job, and holds count further
// numbers at least; exact says no more than that.
func (l *lines) job(number, count int, exact bool, want string) ([]int, error) {
	row, err := l.numbers(want)
	if err != nil {
		return nil, err
	}
	if len(row) < 1+count || exact && len(row) != 1+count {
		return nil, l.fail("%d numbers, want %d: %s", len(row), 1+count, want)
	}
	if row[0] != number {
		return nil, l.fail("the row of job %d, want that of job %d", row[0], number)
	}
	return row[1:], nil
}

// requests reads the rows "job mode duration r1 … rK" of all jobs, which count
// from first.
func (l *lines) requests(p *project, first int) error {
	const want = "job, mode 1, duration, and the amount of each resource"
	for j := range p.duration {
		row, err := l.job(first+j, 2+len(p.capacity), true, want)
		if err != nil {
			return err
		}
		if row[0] != 1 {
			return l.fail("mode %d of job %d, want mode 1: jobs of several modes are not read", row[0], first+j)
		}
		for _, n := range row[1:] {
			if n < 0 {
				return l.fail("%d for job %d, want no negative duration or amount", n, first+j)
			}
		}
		p.duration[j] = row[1]
		p.demand[j] = row[2:]
	}
	return nil
}

// capacities reads the row of the capacities.
func (l *lines) capacities(p *project) error {
	const want = "the capacity of each resource"
	row, err := l.numbers(want)
	if err != nil {
		return err
	}
	if len(row) != len(p.capacity) {
		return l.fail("%d numbers, want %d: %s", len(row), len(p.capacity), want)
	}
	for _, n := range row {
		if n < 0 {
			return l.fail("capacity %d, want none below 0", n)
		}
	}
	copy(p.capacity, row)
	return nil
}
