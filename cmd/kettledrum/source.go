package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/spf13/cobra"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/run"
)

// source is the text of a plan and where it came from.
type source struct {
	name string // for messages
	path string // absolute; empty for the built-in example
	text []byte
	// beside holds the texts of the files that the plan named when it was decoded,
	// by the name it gave them.
	beside map[string]string
}

// builtIn is the example that stands in where no file is named.
func builtIn() source {
	return source{name: "harvest.yaml", text: examples.Harvest, beside: map[string]string{}}
}

// key names the plan in a run's journal: the file, wherever the cook stands
// when starting it again.
func (s source) key() string {
	if s.path == "" {
		return "built-in " + s.name
	}
	return s.path
}

// mostBytes bounds what is read of a file. It is far above planfile's own
// limit, which names the problem better.
const mostBytes = 64 << 20

// readSource reads the plan file that args name, or takes the built-in one.
func readSource(args []string) (source, error) {
	if len(args) == 0 {
		return builtIn(), nil
	}
	name := args[0]
	text, err := readFile(name, "the plan", "leave FILE out to use the built-in harvest dinner")
	if err != nil {
		return source{}, err
	}
	path, err := filepath.Abs(name)
	if err != nil {
		return source{}, fail(exitUse, err)
	}
	return source{name, path, text, map[string]string{}}, nil
}

// readFile returns the text of a file; missing says what to do where there is none.
func readFile(name, what string, missing ...string) ([]byte, error) {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fail(exitUse, fmt.Errorf("there is no file %s", name), missing...)
	} else if err != nil {
		return nil, fail(exitUse, fmt.Errorf("%s cannot be opened: %w", what, err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes))
	if err != nil {
		return nil, fail(exitUse, fmt.Errorf("%s cannot be read: %w", what, err))
	}
	return text, nil
}

// open returns the text of a file that the plan names: of one in the plan's own
// folder, and keeps it for the journal.
func (s source) open(name string) ([]byte, error) {
	if s.path == "" {
		return nil, errors.New("a built-in example has no files beside it")
	}
	if !filepath.IsLocal(name) {
		return nil, errors.New("it must be a file beside the plan")
	}
	f, err := os.Open(filepath.Join(filepath.Dir(s.path), name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errors.New("there is no such file")
	} else if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes))
	if err == nil {
		s.beside[name] = string(text)
	}
	return text, err
}

// decode reads the plan. When it has errors the problems say which and the plan
// is nil. A wrong --serve is an error of its own: it is not in the file.
func (s source) decode(w *world, o reading) (*plan.Plan, plan.Problems, error) {
	p, ps := planfile.Decode(s.text, planfile.Options{
		Serve: o.serve, Now: w.clock.Now(), Local: w.local, Locale: w.locale, Open: s.open})
	if i := slices.IndexFunc(ps, func(p plan.Problem) bool { return p.Code == "serve" }); i >= 0 {
		return nil, nil, fail(exitUse, fmt.Errorf("--serve: %s", ps[i].Text), ps[i].Hints...)
	}
	if p != nil && o.cautious {
		p = p.Cautious()
	}
	return p, ps, nil
}

// load reads the plan for a command that cannot go on without it. Its problems
// go to standard error as check would print them.
func (s source) load(w *world, o reading) (*plan.Plan, error) {
	p, ps, err := s.decode(w, o)
	if err != nil {
		return nil, err
	}
	if ps.HasErrors() {
		fmt.Fprint(w.msg.w, clean(planfile.Format(s.name, s.text, ps)))
		return nil, fail(exitPlan, fmt.Errorf("%s cannot be used: %s", s.name, wrong(errorsIn(ps))))
	}
	return p, nil
}

// errorsIn counts the problems that make a plan unusable.
func errorsIn(ps plan.Problems) int {
	n := 0
	for _, p := range ps {
		if p.Severity == plan.Error {
			n++
		}
	}
	return n
}

// wrong counts things that are wrong.
func wrong(n int) string { return count(n, "thing is wrong", "things are wrong") }

// reading is how a plan is read, as the flags that several commands share ask.
type reading struct {
	serve    string
	cautious bool
	sure     sureness
}

// flags adds those flags to a command.
func (o *reading) flags(c *cobra.Command) {
	c.Flags().StringVar(&o.serve, "serve", "", `move the dinner: "19:00" to today, or "2026-12-05 19:00"`)
	c.Flags().BoolVar(&o.cautious, "cautious", false, "plan with how long steps take at most in four dinners of five")
}

// sureFlag adds the flag of how sure to be, to a command that prints or runs a timetable.
func (o *reading) sureFlag(c *cobra.Command) {
	c.Flags().Var(&o.sure, "sure", `put slack where it buys the most, until every course is on time with this chance: "90%"`)
	c.MarkFlagsMutuallyExclusive("sure", "cautious")
}

// copyOf is what the journal keeps of a plan that was read from s.
func (s source) copyOf(p *plan.Plan, o reading) run.PlanCopy {
	return run.PlanCopy{Name: s.key(), Source: string(s.text), Table: p.Table, Zone: zoneName(p.Table),
		Cautious: o.cautious, Files: s.beside}
}
