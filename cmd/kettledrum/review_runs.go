package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
)

// pastRun is a run that was read from its folder.
type pastRun struct {
	dir     string
	was     *run.PlanCopy
	state   *run.State
	written *plan.Plan // as the file had it: without Cautious
	over    bool       // every course is served, or its table is long past
}

// name is how a run is named: its folder's name.
func (x *pastRun) name() string { return filepath.Base(x.dir) }

// pastRuns returns the runs in the state folder, by time of their table. Those that
// cannot be read are told of.
func pastRuns(w *world, state string) []pastRun {
	dirs, _ := filepath.Glob(filepath.Join(state, "runs", "*"))
	var out []pastRun
	for _, dir := range dirs {
		x, err := readPastRun(w, dir)
		if err != nil {
			w.msg.say("the run %s is left out: %v", filepath.Base(dir), err)
			continue
		}
		out = append(out, x)
	}
	slices.SortStableFunc(out, func(a, b pastRun) int { return a.was.Table.Compare(b.was.Table) })
	return out
}

// readPastRun reads the run in a folder.
func readPastRun(w *world, dir string) (x pastRun, err error) {
	x.dir = dir
	events, err := readRun(dir)
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(events) == 0 {
		return x, errors.New("its journal is empty")
	} else if err != nil {
		return x, err
	}
	if x.was, err = copyIn(events); err != nil {
		return x, err
	}
	p, err := fromCopy(w, x.was)
	if err != nil {
		return x, err
	}
	plain := *x.was
	plain.Cautious = false
	if x.written, err = fromCopy(w, &plain); err != nil {
		return x, err
	}
	if x.state, err = run.Fold(p, events); err != nil {
		return x, fmt.Errorf("its journal does not fit its plan: %w", err)
	}
	x.over = w.clock.Now().Sub(x.was.Table) > soonest ||
		!slices.ContainsFunc(x.state.Courses, func(c run.CourseState) bool { return c.Served.IsZero() })
	return x, nil
}

// chosen are the runs that are looked back at.
type chosen struct {
	shown []pastRun // at least one
	all   []pastRun // of the same plan, shown ones among them: what is proposed is of all
	// src is the plan file, where the arguments named one.
	src *source
}

func (c *chosen) last() *pastRun { return &c.all[len(c.all)-1] }

// choose finds the runs that the arguments ask for.
func (r *lookBack) choose(runs []pastRun, args []string) (*chosen, error) {
	over := slices.DeleteFunc(slices.Clone(runs), func(x pastRun) bool { return !x.over })
	if len(args) == 0 {
		if len(over) == 0 {
			return nil, fail(exitUse, errors.New("no dinner was cooked to its end yet"), known(runs)...)
		}
		return withPlan(over[len(over)-1:], over), nil
	}
	if k := slices.IndexFunc(runs, func(x pastRun) bool { return isNamed(&x, args[0]) }); k >= 0 {
		if !runs[k].over {
			r.w.msg.say("this dinner is not over: what is still to come is not told")
			over = append(over, runs[k])
		}
		return withPlan(runs[k:k+1], over), nil
	}
	if _, err := os.Stat(args[0]); errors.Is(err, fs.ErrNotExist) {
		return nil, fail(exitUse, fmt.Errorf("there is neither a plan file nor a run %s", args[0]), known(runs)...)
	}
	src, err := readSource(args)
	if err != nil {
		return nil, err
	}
	of := slices.DeleteFunc(over, func(x pastRun) bool { return x.was.Name != src.key() })
	if len(of) == 0 {
		return nil, fail(exitUse, fmt.Errorf("no dinner was cooked from %s to its end yet", src.name), known(runs)...)
	}
	return &chosen{shown: of, all: of, src: &src}, nil
}

// isNamed reports whether an argument names a run, or its folder.
func isNamed(x *pastRun, arg string) bool {
	path, err := filepath.Abs(arg)
	return arg == x.name() || err == nil && path == x.dir
}

// withPlan chooses a run, and beside it those of the same plan.
func withPlan(shown, over []pastRun) *chosen {
	all := slices.DeleteFunc(slices.Clone(over), func(x pastRun) bool { return x.was.Name != shown[0].was.Name })
	slices.SortStableFunc(all, func(a, b pastRun) int { return a.was.Table.Compare(b.was.Table) })
	return &chosen{shown: shown, all: all}
}

// mostKnown is how many runs a hint names.
const mostKnown = 5

// known are hints at the runs that there are.
func known(runs []pastRun) []string {
	if len(runs) == 0 {
		return []string{"kettledrum cook conducts one, and writes down what happens"}
	}
	var out []string
	for _, x := range slices.Backward(runs) {
		if len(out) == mostKnown {
			break
		}
		out = append(out, fmt.Sprintf("%s review %s: %s, table %s, %s", program, shellWord(x.name()), titleOf(x.state.Base), day(x.was.Table), hour(x.was.Table)))
	}
	return out
}

// planOf reads the file that the runs were cooked from.
func (c *chosen) planOf() (source, error) {
	if c.src != nil {
		return *c.src, nil
	}
	path := c.last().was.Name
	if !filepath.IsAbs(path) {
		return source{}, fail(exitUse, errors.New("this dinner was cooked from the built-in example, which cannot be changed"),
			"copy it into a file of your own and cook that")
	}
	return readSource([]string{shownPath(path)})
}

// options are those with which a plan file is read to be written again.
func (s source) options(w *world) planfile.Options {
	return planfile.Options{Now: w.clock.Now(), Local: w.local, Locale: w.locale, Open: s.open}
}

// ago is the time of a dinner in a heading: "Tue 1 December 2026, 18:30".
func ago(t time.Time) string { return day(t) + ", " + hour(t) }
