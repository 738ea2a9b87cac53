package main

import (
	"errors"

	"github.com/spf13/cobra"
)

// appearance is how a run is shown, as the flags of the live commands ask.
type appearance struct {
	plain bool // lines instead of a screen
	ascii bool // nothing but ASCII
	light bool // colours for a light ground
}

// flags adds those flags to a command.
func (a *appearance) flags(c *cobra.Command) {
	c.Flags().BoolVar(&a.plain, "plain", false, "lines of text instead of a screen, for screen readers, logs and pipes; keys are typed as lines")
	c.Flags().BoolVar(&a.ascii, "ascii", false, "draw with nothing but ASCII, whatever the locale")
	c.Flags().BoolVar(&a.light, "light", false, "colours for dark text on a light ground, where the terminal does not say so (COLORFGBG)")
}

// canShow refuses a screen where there is no terminal for it.
func (a *appearance) canShow(w *world, command string) error {
	if w.terminal != nil || a.plain {
		return nil
	}
	return fail(exitTerminal, errors.New(command+" needs a terminal for its screen, and input or output is none"),
		"kettledrum "+command+" --plain prints lines instead")
}
