package theme

import (
	"io"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"example.org/kettledrum/plan/run"
)

// Token is a meaning that has a look.
type Token int

// Meanings. The first six are those of the cue classes, in the same order.
const (
	Danger Token = iota
	Late
	Look
	Act
	Soon
	Note
	Going
	Waiting // unconfirmed, or not yet
	Done
	Oven
	Hands // a key to press, a cook
	Title
	Dim    // labels, what may be overlooked
	Strong // the terminal's foreground, bold
	Plain  // the terminal's foreground
	Track  // the part of a bar that is still to come
	tokens
)

// Of returns the token of a cue class.
func Of(c run.Class) Token { return Token(c) }

// ink is one text colour for dark and one for light backgrounds.
type ink struct{ dark, light string }

// inks is the palette. Plain and Strong have none: they are the terminal's own.
var inks = [tokens]ink{
	Danger:  {"#ff8080", "#b3202c"},
	Late:    {"#ffa666", "#9a4200"},
	Look:    {"#ffd36b", "#735200"},
	Act:     {"#7fe0a6", "#0b6638"},
	Soon:    {"#8cc8ff", "#0a5796"},
	Note:    {"#cdbcf5", "#5b3fa0"},
	Going:   {"#86d7cf", "#0a625c"},
	Waiting: {"#b0b9c1", "#555f68"},
	Done:    {"#9fb89b", "#44613f"},
	Oven:    {"#f5b083", "#94460f"},
	Hands:   {"#f0c0de", "#85296a"},
	Title:   {"#f3dcb8", "#69480f"},
	Dim:     {"#98a2ab", "#5b646c"},
	Track:   {"#7d878f", "#5f6871"},
}

// band is a filled block: its ground, and the text on it.
type band struct{ ground, text string }

// bands are the grounds of what is to be done now, one a cue class, the same on
// dark and light terminals.
var bands = [...]band{
	run.Danger:  {"#b01e2a", "#ffffff"},
	run.LateCue: {"#9a4300", "#ffffff"},
	run.Look:    {"#ffd36b", "#241a00"},
	run.Act:     {"#0e6640", "#ffffff"},
	run.Soon:    {"#1b4f7d", "#ffffff"},
	run.Note:    {"#4a3b78", "#ffffff"},
}

// Style is what to write before and after a text to give it its look.
type Style struct{ On, Off string }

// Theme is a look for one kind of terminal. It is built once and never changed.
type Theme struct {
	Set    Symbols
	ASCII  bool
	styles [tokens]Style
	// Of the bands: the ground with plain and with bold text.
	plain, bold [len(bands)]Style
}

// New returns the theme for a terminal with these colours and this background.
func New(profile termenv.Profile, dark, ascii bool) *Theme {
	r := lipgloss.NewRenderer(io.Discard)
	r.SetColorProfile(profile)
	r.SetHasDarkBackground(dark)
	t := &Theme{Set: unicodeSet, ASCII: ascii}
	if ascii {
		t.Set = asciiSet
	}
	own := profile == termenv.TrueColor || profile == termenv.ANSI256
	for i, k := range inks {
		s := r.NewStyle()
		if own && k != (ink{}) {
			s = s.Foreground(lipgloss.AdaptiveColor{Dark: k.dark, Light: k.light})
		}
		switch tok := Token(i); tok {
		case Danger, Late, Look, Act, Strong, Hands, Title:
			s = s.Bold(true)
		case Dim, Track:
			if profile == termenv.ANSI {
				s = s.Faint(true)
			}
		}
		t.styles[i] = split(s)
	}
	for i, b := range bands {
		s := r.NewStyle().Reverse(true)
		if own {
			s = r.NewStyle().Background(lipgloss.Color(b.ground)).Foreground(lipgloss.Color(b.text))
		}
		t.plain[i], t.bold[i] = split(s), split(s.Bold(true))
	}
	if profile == termenv.Ascii {
		t.monochrome()
	}
	return t
}

// monochrome gives a theme without colour what is no colour: bold and reverse,
// which lipgloss would leave out with the colours.
func (t *Theme) monochrome() {
	const reset = "\x1b[0m"
	for _, tok := range []Token{Danger, Late, Look, Act, Strong, Hands, Title} {
		t.styles[tok] = Style{"\x1b[1m", reset}
	}
	for i := range bands {
		t.plain[i], t.bold[i] = Style{"\x1b[7m", reset}, Style{"\x1b[1;7m", reset}
	}
}

// Bare returns a theme that writes no escape sequences at all.
func Bare(ascii bool) *Theme {
	t := &Theme{Set: unicodeSet, ASCII: ascii}
	if ascii {
		t.Set = asciiSet
	}
	return t
}

// Style returns the look of a meaning.
func (t *Theme) Style(tok Token) Style { return t.styles[tok] }

// Band returns the look of text on the ground of a cue class.
func (t *Theme) Band(c run.Class, bold bool) Style {
	if bold {
		return t.bold[c]
	}
	return t.plain[c]
}

// split renders a style once and keeps what it writes around the text, so that
// a frame is painted by joining strings.
func split(s lipgloss.Style) Style {
	on, off, _ := strings.Cut(s.Render("x"), "x")
	return Style{on, off}
}
