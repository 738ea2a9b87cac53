package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/tui/theme"
)

// reviewSchema describes what `review --json` prints: see reviewJSON.
//
//go:embed review.schema.json
var reviewSchema []byte

// reviewCommand looks back at dinners that were cooked.
func reviewCommand(w *world) *cobra.Command {
	r := lookBack{w: w}
	c := &cobra.Command{
		Use:   "review [FILE or RUN]",
		Short: "Say what really happened against the plan, and how long to plan the next time",
		Long: `Without an argument, the last dinner that was cooked. With a plan FILE, every dinner that
was cooked from it; with a RUN, the name of its folder, that one, even if it is not over.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fail(exitUse, fmt.Errorf("one plan file or run at a time, got %d", len(args)))
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return r.run(c.Context(), args) },
	}
	c.Flags().BoolVar(&r.apply, "apply", false, "write the proposed lengths into the plan file; the file as it was is kept beside it")
	c.Flags().BoolVar(&r.mishaps, "mishaps", false, "print what went wrong in the run, of several the last, as a script for rehearse --mishaps")
	c.Flags().BoolVar(&r.json, "json", false, "print JSON instead of text")
	c.Flags().BoolVar(&r.ascii, "ascii", false, "draw with nothing but ASCII, whatever the locale")
	c.MarkFlagsMutuallyExclusive("apply", "mishaps", "json")
	return c
}

// lookBack is one call of the review command.
type lookBack struct {
	w                           *world
	apply, mishaps, json, ascii bool
}

func (r *lookBack) run(ctx context.Context, args []string) error {
	state, err := journal.StateDir()
	if err != nil {
		return fail(exitJournal, err)
	}
	c, err := r.choose(pastRuns(r.w, state), args)
	if err != nil {
		return err
	}
	switch {
	case r.mishaps:
		return r.script(ctx, &c.shown[len(c.shown)-1])
	case r.apply:
		return r.write(c)
	}
	b := c.lookBack()
	if r.json {
		writeJSON(r.w.out, viewReview(c, b))
		return nil
	}
	writeReview(r.w.out, c, b, theme.Bare(r.ascii || !theme.UTF8(os.Getenv)).Set)
	r.next(c, b)
	return nil
}

// next says how to take what is proposed.
func (r *lookBack) next(c *chosen, b *lookedBack) {
	if len(b.changes()) == 0 {
		return
	}
	path := c.last().was.Name
	if !filepath.IsAbs(path) {
		r.w.msg.hint("this dinner was cooked from the built-in example; write the lengths into a plan of your own")
		return
	}
	r.w.msg.hint("%s review %s --apply writes them into the plan, and nothing else", program, shellWord(shownPath(path)))
}

// shownPath is a path as short as it can be typed here.
func shownPath(path string) string {
	wd, err := os.Getwd()
	if err != nil {
		return path
	}
	if rel, err := filepath.Rel(wd, path); err == nil && filepath.IsLocal(rel) {
		return rel
	}
	return path
}

// script prints what went wrong in a run.
func (r *lookBack) script(ctx context.Context, x *pastRun) error {
	offered := func(before []run.Event, at time.Time) []remedy.Remedy {
		stands := clock.NewFast(clock.System{}, at, 0)
		cfg := sessionConfig(stands, new(journal.Memory))
		cfg.Plan, cfg.Past = x.state.Base, before
		s, err := session.Open(ctx, cfg)
		if err != nil {
			return nil // the script then says that it is not offered
		}
		return s.Remedies(ctx)
	}
	s := review.Mishaps(x.state, offered)
	if err := ctx.Err(); err != nil {
		return fail(exitUse, errors.New("given up before the script was whole"))
	}
	head := []string{fmt.Sprintf("What went wrong at %s, %s.", titleOf(x.state.Base), ago(x.was.Table)),
		"The same evening again, with this script in FILE: " + again(x.was) + " --mishaps FILE"}
	if len(s.Left) > 0 {
		head = append(head, "A script cannot say all of it as it was:")
	}
	_, err := r.w.out.Write(planfile.WriteScript(x.state.Base, s.Mishaps, head, s.Left))
	return err
}

// again is the command that rehearses a dinner at the time it was cooked, wherever the
// plan's file has it.
func again(was *run.PlanCopy) string {
	words := []string{program, "rehearse"}
	if filepath.IsAbs(was.Name) { // else it is the built-in example
		words = append(words, shellWord(shownPath(was.Name)))
	}
	if was.Cautious {
		words = append(words, "--cautious")
	}
	return strings.Join(append(words, fmt.Sprintf("--serve %q", was.Table.Format("2006-01-02 15:04"))), " ")
}

// lookedBack is what chosen runs tell.
type lookedBack struct {
	shown  []*review.Evening
	habits []review.Habit // of all runs of the plan
}

// lookBack judges the runs that were chosen.
func (c *chosen) lookBack() *lookedBack {
	b := &lookedBack{}
	var all []*review.Evening
	for i := range c.all {
		all = append(all, review.Of(c.all[i].state, c.all[i].written))
		for _, s := range c.shown {
			if s.dir == c.all[i].dir {
				b.shown = append(b.shown, all[i])
			}
		}
	}
	b.habits = review.Compare(all)
	return b
}

// changes are the habits that propose another length.
func (b *lookedBack) changes() (out []review.Habit) {
	for _, h := range b.habits {
		if h.Changes() {
			out = append(out, h)
		}
	}
	return out
}
