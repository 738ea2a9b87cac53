package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"example.org/kettledrum/tui"
)

// After a panic the stack goes by, and the last line says how to go on.
func TestLastLineSaysHowToGoOn(t *testing.T) {
	t.Parallel()
	err := fail(exitBroken, fmt.Errorf("%w: on purpose\ngoroutine 1 [running]:\nmain.main()", tui.ErrPanic))
	err = withHint(err, "to go on: kettledrum cook supper.yaml")
	var out bytes.Buffer
	messages{&out}.report(err)
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	if got, want := lines[len(lines)-1], "kettledrum: hint: to go on: kettledrum cook supper.yaml"; got != want {
		t.Errorf("the last line is %q, want %q", got, want)
	}
	if got := exitCode(err); got != exitBroken {
		t.Errorf("exit code %d, want %d", got, exitBroken)
	}
}
