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
)

// source is the text of a plan and where it came from.
type source struct {
	name string // for messages
	path string // absolute; empty for the built-in example
	text []byte
}

// builtIn is the example that stands in where no file is named.
func builtIn() source { return source{name: "harvest.yaml", text: examples.Harvest} }

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
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return source{}, fail(exitUse, fmt.Errorf("there is no file %s", name),
			"leave FILE out to use the built-in harvest dinner")
	} else if err != nil {
		return source{}, fail(exitUse, fmt.Errorf("the plan cannot be opened: %w", err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostBytes))
	if err != nil {
		return source{}, fail(exitUse, fmt.Errorf("the plan cannot be read: %w", err))
	}
	path, err := filepath.Abs(name)
	if err != nil {
		return source{}, fail(exitUse, err)
	}
	return source{name, path, text}, nil
}

// decode reads the plan. When it has errors the problems say which and the plan
// is nil. A wrong --serve is an error of its own: it is not in the file.
func (s source) decode(w *world, serve string) (*plan.Plan, plan.Problems, error) {
	p, ps := planfile.Decode(s.text, planfile.Options{
		Serve: serve, Now: w.clock.Now(), Local: w.local, Locale: w.locale})
	if i := slices.IndexFunc(ps, func(p plan.Problem) bool { return p.Code == "serve" }); i >= 0 {
		return nil, nil, fail(exitUse, fmt.Errorf("--serve: %s", ps[i].Text), ps[i].Hints...)
	}
	return p, ps, nil
}

// load reads the plan for a command that cannot go on without it. Its problems
// go to standard error as check would print them.
func (s source) load(w *world, serve string) (*plan.Plan, error) {
	p, ps, err := s.decode(w, serve)
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

// serveFlag adds --serve to a command.
func serveFlag(c *cobra.Command, serve *string) {
	c.Flags().StringVar(serve, "serve", "", `move the dinner: "19:00" to today, or "2026-12-05 19:00"`)
}
