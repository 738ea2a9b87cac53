package tui

import (
	"context"

	"golang.org/x/sys/windows"
)

// understandSequences has a console understand escape sequences.
func understandSequences(fd uintptr) error {
	var mode uint32
	if err := windows.GetConsoleMode(windows.Handle(fd), &mode); err != nil {
		return err
	}
	return windows.SetConsoleMode(windows.Handle(fd), mode|windows.ENABLE_VIRTUAL_TERMINAL_PROCESSING)
}

// resized has nothing to do: a console tells its size among its keys.
func resized(context.Context, func(back bool)) {}
