package tui_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// TestPlainRehearsalEnds: a rehearsal in lines whose input has ended goes on to its end,
// takes what nobody answered to have gone as planned, tells how it went, and ends.
func TestPlainRehearsalEnds(t *testing.T) {
	t.Parallel()
	p, table := tuitest.Dinner()
	state, err := run.Fold(p, append(tuitest.Opening(p, table), stage("three-at-once").Events...))
	if err != nil {
		t.Fatal(err)
	}
	fast := clock.NewFast(clocktest.New(tuitest.At(0, 0)), tuitest.At(22, 0), 1) // long after the last course
	found, change := sections()
	var out strings.Builder
	_, err = tui.RunPlain(t.Context(), tui.Options{
		Conductor: tuitest.NewMemory(state), Clock: fast, Rehearsal: fast, In: strings.NewReader(""), Out: &out, Theme: theme.Bare(false),
		Real:    clocktest.New(time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC)),
		Debrief: func() []debrief.Section { return found },
		Improve: func(context.Context) []debrief.Section { return append(found, change) },
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"all as planned", "\n Late, and why\n", "being played again", "begins 20 min sooner"} {
		if n := strings.Count(out.String(), want); n != 1 {
			t.Errorf("%q is told %d times, want once:\n%s", want, n, out.String())
		}
	}
}
