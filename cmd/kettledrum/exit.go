package main

import (
	"errors"
	"slices"
)

// Exit codes. They are part of the interface: README.md shows this table.
const (
	exitFine     = 0 // nothing wrong; cautions and notices alone are fine
	exitPlan     = 1 // something is wrong with the plan or its timetable
	exitUse      = 2 // wrong use: an unknown flag, a file that cannot be read
	exitJournal  = 3 // the run's journal is damaged or cannot be written
	exitLocked   = 4 // another kettledrum conducts this run
	exitTerminal = 5 // the command needs a terminal and there is none
	exitBroken   = 6 // a defect of kettledrum, or a result that could not be written
)

// failure is an error that knows its exit code and what to do about it.
type failure struct {
	code  int
	err   error
	hints []string
}

// Error implements error.
func (f *failure) Error() string { return f.err.Error() }

// Unwrap returns the error that the failure carries.
func (f *failure) Unwrap() error { return f.err }

// fail makes a failure with hints, one thought each.
func fail(code int, err error, hints ...string) error { return &failure{code, err, hints} }

// withHint adds a hint to an error that fail made.
func withHint(err error, hint string) error {
	var f *failure
	if !errors.As(err, &f) {
		return fail(exitBroken, err, hint)
	}
	return fail(f.code, f.err, append(slices.Clone(f.hints), hint)...)
}

// said is returned by a command that has already printed all there is to say
// and ends with this exit code.
type said int

// Error implements error; it is never printed.
func (s said) Error() string { return "already reported" }

// exitCode returns the code with which a command that returned err ends. An
// error without a code comes from the argument parser: wrong use.
func exitCode(err error) int {
	var f *failure
	var s said
	switch {
	case err == nil:
		return exitFine
	case errors.As(err, &s):
		return int(s)
	case errors.As(err, &f):
		return f.code
	}
	return exitUse
}
