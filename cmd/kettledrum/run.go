package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/clock"
	_ "example.org/kettledrum/tui/background" // before anything can ask the terminal for its colours
	"example.org/kettledrum/tui/theme"
)

// world is what the commands have from outside: made in one place (system) and
// handed inward.
type world struct {
	out      *results
	msg      messages
	clock    clock.Clock
	local    *time.Location
	locale   string
	terminal *terminal // nil where there is none
	plainOut io.Writer // of --plain where there is no terminal
	utf8     bool      // what is printed may be more than ASCII
	progress io.Writer // where a progress bar goes; nil where nobody sees it
}

// system returns the world as it is.
func system() *world {
	return &world{
		out:      &results{w: os.Stdout},
		msg:      messages{os.Stderr},
		clock:    clock.System{},
		local:    namedZone(time.Local, localtime, time.Now()),
		locale:   locale(os.Getenv),
		terminal: openTerminal(os.Stdin, os.Stdout),
		plainOut: os.Stdout,
		utf8:     theme.UTF8(os.Getenv),
		progress: orNoTerminal(os.Stderr),
	}
}

// locale returns the locale that decides the units of a plan that names none:
// the first of these variables that is set, as locale(7) of Linux orders them.
func locale(env func(string) string) string {
	for _, name := range []string{"LC_ALL", "LC_MEASUREMENT", "LANG"} {
		if v := env(name); v != "" {
			return v
		}
	}
	return ""
}

// commands is the table of sub-commands, in the order of the help.
var commands = []func(*world) *cobra.Command{
	checkCommand,
	planCommand,
	cookCommand,
	rehearseCommand,
	followCommand,
	reviewCommand,
	shopCommand,
	measureCommand,
	soundCommand,
	schemaCommand,
}

const about = `Kettledrum conducts a dinner: from one plan file it works out what to make when,
keeps the timers on the day, and says at once what moves when a step runs long.

FILE may be left out: then the built-in harvest dinner is used.`

// root builds the command with its sub-commands.
func root(w *world) *cobra.Command {
	c := &cobra.Command{
		Use:               program,
		Short:             "Conducts a dinner from one plan file",
		Long:              about,
		Version:           version(),
		SilenceErrors:     true,
		SilenceUsage:      true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: false},
	}
	c.SetOut(w.out)
	c.SetErr(w.msg.w)
	c.SetVersionTemplate("{{.Name}} {{.Version}}\n")
	for _, sub := range commands {
		c.AddCommand(sub(w))
	}
	return c
}

// execute runs the sub-command that args name and returns its exit code.
func execute(args []string, w *world) (code int) {
	defer func() {
		if r := recover(); r != nil {
			w.msg.say("a defect of kettledrum: %v", r)
			w.msg.say("%s", debug.Stack())
			w.msg.hint("what has happened in the run is in its journal: start the same command again to go on")
			code = exitBroken
		}
	}()
	// Asked to stop, every command winds up: the session is closed and the
	// terminal restored. A hangup of the terminal asks the same.
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer stop()
	c := root(w)
	c.SetArgs(args)
	err := c.ExecuteContext(ctx)
	if w.out.err != nil {
		err = fail(exitBroken, fmt.Errorf("the result is not complete: %w", w.out.err))
	}
	w.msg.report(err)
	return exitCode(err)
}

// oneFile accepts at most one argument.
func oneFile(_ *cobra.Command, args []string) error {
	if len(args) > 1 {
		return fail(exitUse, fmt.Errorf("one plan file at a time, got %d", len(args)))
	}
	return nil
}

// version tells which kettledrum this is, from what the go command stamped
// into the binary.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(unknown version)"
	}
	return info.Main.Version
}
