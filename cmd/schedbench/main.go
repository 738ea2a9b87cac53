package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"time"
)

// Exit codes.
const (
	exitFine  = 0
	exitWrong = 1 // an answer is wrong, or something could not be read or planned
	exitUse   = 2 // wrong use
)

func main() { os.Exit(execute(os.Args[1:], time.Now, os.Stdout, os.Stderr)) }

const usage = `usage: schedbench [-limit 5s] [-json] DIR...
       schedbench -kitchen [-steps 60] [-n 50] [-seed 7] [-tight 0..2] [-limit 5s] [-json] [-print]

solves the .sm and .sch files of folders, or plans kitchens that it makes; one line
each to standard output, a summary to standard error

`

// options are what the arguments say.
type options struct {
	limit time.Duration
	json  bool
	kitchenOptions
}

// execute runs the command with these arguments and returns its exit code.
func execute(args []string, now func() time.Time, out, log io.Writer) int {
	var o options
	var kitchen bool
	f := flag.NewFlagSet("schedbench", flag.ContinueOnError)
	f.SetOutput(log)
	f.Usage = func() { fmt.Fprint(log, usage); f.PrintDefaults() }
	f.DurationVar(&o.limit, "limit", 5*time.Second, "time for one problem")
	f.BoolVar(&o.json, "json", false, "print JSON lines")
	f.BoolVar(&kitchen, "kitchen", false, "make kitchens and plan them")
	f.IntVar(&o.steps, "steps", 60, "steps of a kitchen")
	f.IntVar(&o.n, "n", 50, "how many kitchens")
	f.Uint64Var(&o.seed, "seed", 7, "seed of the first kitchen; each further one has the next")
	f.IntVar(&o.tight, "tight", -1, "how scarce time is: 0 roomy, 1 usual, 2 nearly or not at all enough; -1 each in turn")
	f.BoolVar(&o.print, "print", false, "print the kitchens' plan files and do not plan them")
	if err := f.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return exitFine
		}
		return exitUse
	}
	if err := o.refuse(f, kitchen); err != nil {
		fmt.Fprintf(log, "schedbench: %v\n", err)
		return exitUse
	}
	var err error
	if kitchen {
		err = kitchens(o, now, out, log)
	} else {
		for _, path := range f.Args() {
			err = errors.Join(err, folder(path, o.limit, o.json, now, out, log))
		}
	}
	if err != nil {
		fmt.Fprintf(log, "schedbench: %v\n", err)
		return exitWrong
	}
	return exitFine
}

// refuse returns what is wrong with the arguments.
func (o *options) refuse(f *flag.FlagSet, kitchen bool) error {
	var stray string
	f.Visit(func(f *flag.Flag) {
		switch f.Name {
		case "steps", "n", "seed", "tight", "print":
			if stray == "" {
				stray = f.Name
			}
		}
	})
	switch {
	case o.limit <= 0:
		return fmt.Errorf("-limit %v, want more than nothing", o.limit)
	case !kitchen && stray != "":
		return fmt.Errorf("-%s without -kitchen, want both or a folder alone", stray)
	case !kitchen && f.NArg() == 0:
		return errors.New("no folder, want one with .sm or .sch files, or -kitchen")
	case kitchen && f.NArg() > 0:
		return fmt.Errorf("%q beside -kitchen, want the one or the other", f.Arg(0))
	case kitchen:
		return o.kitchenOptions.refuse()
	}
	return nil
}
