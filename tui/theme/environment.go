package theme

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// FromEnvironment returns the theme for the terminal that the environment
// tells of: NO_COLOR (any value but none turns colour off, no-color.org), the
// locale (ASCII unless it is a UTF-8 one), and, unless the ground is
// known to be light, lipgloss's word on it.
func FromEnvironment(getenv func(string) string, ascii, light bool, profile termenv.Profile) *Theme {
	if getenv("NO_COLOR") != "" {
		profile = termenv.Ascii
	}
	return New(profile, !light && lipgloss.HasDarkBackground(), ascii || !UTF8(getenv))
}

// UTF8 reports whether the locale has UTF-8: the first of LC_ALL, LC_CTYPE and
// LANG that is set decides (POSIX.1-2017, 8.2). Windows sets none of them and
// its terminals show Unicode.
func UTF8(getenv func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := strings.ToLower(getenv(name)); v != "" {
			return strings.Contains(v, "utf-8") || strings.Contains(v, "utf8")
		}
	}
	return getenv("OS") == "Windows_NT"
}
