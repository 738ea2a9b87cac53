package plan

import (
	"cmp"
	"slices"
	"strings"
)

// Pos is a place in the plan file. Line and Col count from 1; Col counts
// characters. The zero Pos means unknown.
type Pos struct {
	Line, Col int
}

// Severity says what a problem does to the plan.
type Severity int

// Severities of a problem.
const (
	Error  Severity = iota // the plan cannot be used
	Notice                 // something taken for granted that the cook should know
)

// Problem is one thing that is wrong with a plan, and what would be right.
type Problem struct {
	Code     string // short, stable, lower case with hyphens: "unknown-key"
	Severity Severity
	Pos      Pos
	Text     string   // lower case, no full stop
	Hints    []string // what would be right, one thought each
	// File is the file that Pos is in where that is not the plan's own: the name
	// as the plan says it. Line is then the text of the line.
	File, Line string
}

// Problems are all problems of a plan, sorted by position.
type Problems []Problem

// Error joins the texts of all problems, one a line.
func (ps Problems) Error() string {
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.Text)
	}
	return b.String()
}

// Sort orders the problems by their place: the plan's own first, then those of
// other files.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Pos.Line, b.Pos.Line), cmp.Compare(a.Pos.Col, b.Pos.Col))
	})
}

// HasErrors reports whether any of the problems makes the plan unusable.
func (ps Problems) HasErrors() bool {
	return slices.ContainsFunc(ps, func(p Problem) bool { return p.Severity == Error })
}
