package theme

import (
	"math"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/lucasb-eyer/go-colorful"
	"github.com/muesli/termenv"

	"example.org/kettledrum/plan/run"
)

// contrast returns the contrast ratio of two colours, 1 to 21.
//
// Source: W3C, Web Content Accessibility Guidelines (WCAG) 2.2, definitions of
// "contrast ratio" and "relative luminance"; success criterion 1.4.3 (level AA)
// asks for 4.5 to 1. From memory.
func contrast(a, b colorful.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c colorful.Color) float64 {
	lin := func(v float64) float64 {
		if v <= 0.04045 {
			return v / 12.92
		}
		return math.Pow((v+0.055)/1.055, 2.4)
	}
	return 0.2126*lin(c.R) + 0.7152*lin(c.G) + 0.0722*lin(c.B)
}

func hex(t *testing.T, s string) colorful.Color {
	t.Helper()
	c, err := colorful.Hex(s)
	if err != nil {
		t.Fatalf("colour %q: %v", s, err)
	}
	return c
}

// rounded is the colour that a terminal of 256 colours shows for s.
func rounded(s string) colorful.Color {
	return termenv.ConvertToRGB(termenv.ANSI256.Color(s))
}

const levelAA = 4.5

func TestContrastFormula(t *testing.T) {
	t.Parallel()
	// Black on white is 21 by the definition; #777777 on white is the well-known
	// near miss, 4.48.
	if got := contrast(hex(t, "#000000"), hex(t, "#ffffff")); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %v, want 21", got)
	}
	if got := contrast(hex(t, "#777777"), hex(t, "#ffffff")); math.Abs(got-4.48) > 0.005 {
		t.Errorf("#777777 on white: %v, want 4.48", got)
	}
}

func TestPaletteMeetsAA(t *testing.T) {
	t.Parallel()
	black, white := hex(t, "#000000"), hex(t, "#ffffff")
	for tok, k := range inks {
		if k == (ink{}) {
			continue
		}
		for name, got := range map[string]float64{
			"on black":             contrast(hex(t, k.dark), black),
			"on white":             contrast(hex(t, k.light), white),
			"on black, 256 colour": contrast(rounded(k.dark), black),
			"on white, 256 colour": contrast(rounded(k.light), white),
		} {
			if got < levelAA {
				t.Errorf("token %d %s: contrast %.2f, want at least %v", tok, name, got, levelAA)
			}
		}
	}
	for c, b := range bands {
		for name, got := range map[string]float64{
			"true colour": contrast(hex(t, b.ground), hex(t, b.text)),
			"256 colour":  contrast(rounded(b.ground), rounded(b.text)),
		} {
			if got < levelAA {
				t.Errorf("band %v %s: contrast %.2f, want at least %v", run.Class(c), name, got, levelAA)
			}
		}
	}
}

func TestFewColoursUseOwnForeground(t *testing.T) {
	t.Parallel()
	for name, p := range map[string]termenv.Profile{"none": termenv.Ascii, "sixteen": termenv.ANSI} {
		th := New(p, true, false)
		for tok := range tokens {
			for _, r := range th.Style(tok).On {
				if r == '3' || r == '4' || r == '9' {
					t.Errorf("%s colours: token %d writes %q, want bold, faint or reverse only", name, tok, th.Style(tok).On)
				}
			}
		}
		if on := th.Band(run.Act, true).On; on == "" {
			t.Errorf("%s colours: the band is not marked at all", name)
		}
	}
	if on := New(termenv.TrueColor, true, false).Style(Act).On; on == New(termenv.TrueColor, false, false).Style(Act).On {
		t.Errorf("dark and light write the same colour %q", on)
	}
}

func TestSymbolsFitTheirCells(t *testing.T) {
	t.Parallel()
	for name, s := range map[string]Symbols{"unicode": unicodeSet, "ascii": asciiSet} {
		for _, one := range []string{s.Filled, s.Half, s.Track, s.Rule, s.Selected, s.Assumed, s.Done, s.Over, s.Going, s.Separator} {
			if w := ansi.StringWidth(one); w != 1 {
				t.Errorf("%s: %q is %d cells wide, want 1", name, one, w)
			}
		}
		seen := map[string]bool{}
		for c, one := range s.Classes {
			if w := ansi.StringWidth(one); w < 1 || w > 2 || seen[one] {
				t.Errorf("%s: symbol %q of %v is %d cells wide or not its own", name, one, run.Class(c), w)
			}
			seen[one] = true
		}
	}
	for _, r := range asciiSet.Classes {
		if r[0] > 127 {
			t.Errorf("%q is no ASCII", r)
		}
	}
}

func TestEnvironment(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		env           map[string]string
		ascii, colour bool
	}{
		"utf8":          {map[string]string{"LANG": "en_US.UTF-8"}, false, true},
		"posix":         {map[string]string{"LANG": "C"}, true, true},
		"lc-all-wins":   {map[string]string{"LC_ALL": "C", "LANG": "en_US.UTF-8"}, true, true},
		"unset":         {nil, true, true},
		"windows":       {map[string]string{"OS": "Windows_NT"}, false, true},
		"no-color":      {map[string]string{"LANG": "C.utf8", "NO_COLOR": "1"}, false, false},
		"no-color-none": {map[string]string{"LANG": "C.utf8", "NO_COLOR": ""}, false, true},
	} {
		th := FromEnvironment(func(k string) string { return c.env[k] }, false, false, termenv.TrueColor)
		colour := th.Style(Going).On != ""
		if th.ASCII != c.ascii || colour != c.colour {
			t.Errorf("%s: ascii %v colour %v, want %v %v", name, th.ASCII, colour, c.ascii, c.colour)
		}
	}
}

// A light ground that is asked for has the inks for it; lipgloss is not asked.
func TestLightIsAskedFor(t *testing.T) {
	t.Parallel()
	env := func(string) string { return "" }
	got, want := FromEnvironment(env, false, true, termenv.TrueColor), New(termenv.TrueColor, false, true)
	if got.Style(Going) != want.Style(Going) || got.Style(Going) == New(termenv.TrueColor, true, true).Style(Going) {
		t.Errorf("what goes on is drawn %q, want %q", got.Style(Going).On, want.Style(Going).On)
	}
}
