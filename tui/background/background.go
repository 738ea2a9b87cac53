// Package background tells lipgloss whether the terminal is dark or light
// before anything can ask the terminal itself.
//
// The screen's library asks for the background colour in its init, and a
// terminal that answers nothing stalls every command for seconds, --help too.
// Packages are initialised in the order of their import paths as soon as what
// they import is ready (Go specification, Program initialization), and
// "example.org/…" sorts before "github.com/charmbracelet/bubbletea". So this
// package must import nothing but lipgloss and the standard library, and
// whatever imports bubbletea must import this one too.
package background

import (
	"os"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

func init() { lipgloss.SetHasDarkBackground(Dark(os.Getenv("COLORFGBG"))) }

// Dark reports whether a terminal has a dark background, from the value of
// COLORFGBG, "foreground;background" in numbers of the sixteen colours, as
// rxvt and others set it. Anything else counts as dark.
func Dark(colorfgbg string) bool {
	_, bg, _ := strings.Cut(colorfgbg, ";")
	if i := strings.LastIndexByte(bg, ';'); i >= 0 { // "15;default;0"
		bg = bg[i+1:]
	}
	n, err := strconv.Atoi(bg)
	// White (7) and the bright colours but bright black (8) are light.
	return err != nil || n < 7 || n == 8
}
