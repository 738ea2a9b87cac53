package main

// Where each kind of text goes:
//
//   - Results (a timetable, JSON, the problems that check finds) go to standard
//     output, and nothing else does, so that they can be piped.
//     What is wrong with a plan is a result of check; other commands print it to
//     standard error. It begins with file:line:column, for editors jump there.
//   - Messages (errors, notices, how to go on) go to standard error, each line
//     with "kettledrum: " in front. An error is one line saying what is wrong,
//     then "kettledrum: hint: " lines saying what to do.
//   - The live screen goes to the terminal and is gone when the command ends.
//
// Text from a plan is cleaned before it is printed: see clean.

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"
)

// program is the name in front of every message.
const program = "kettledrum"

// results writes to standard output and remembers the first failure, so that
// printing needs no check at every line: the command fails at its end.
type results struct {
	w   io.Writer
	err error
}

// Write implements io.Writer.
func (r *results) Write(b []byte) (int, error) {
	if r.err != nil {
		return 0, r.err
	}
	n, err := r.w.Write(b)
	r.err = err
	return n, err
}

// messages writes to standard error.
type messages struct{ w io.Writer }

// say writes one message.
func (m messages) say(format string, args ...any) {
	for line := range strings.Lines(clean(fmt.Sprintf(format, args...))) {
		fmt.Fprintf(m.w, "%s: %s\n", program, strings.TrimRight(line, "\n"))
	}
}

// hint writes what to do about the message before it.
func (m messages) hint(format string, args ...any) { m.say("hint: "+format, args...) }

// report writes err and its hints.
func (m messages) report(err error) {
	var s said
	if err == nil || errors.As(err, &s) {
		return
	}
	m.say("%v", err)
	var f *failure
	if errors.As(err, &f) {
		for _, h := range f.hints {
			m.hint("%s", h)
		}
		return
	}
	m.hint("%s --help says how it is used", program)
}

// clean replaces control characters other than the line feed, which could
// move a terminal's cursor or hide text, by the replacement character.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.In(r, unicode.Bidi_Control):
			return unicode.ReplacementChar
		}
		return r
	}, s)
}
