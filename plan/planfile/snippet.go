package planfile

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan"
)

// How much of a line is shown, in characters: all of one of ordinary length; of
// a longer one what is around the place.
const (
	shownWhole  = 110
	shownBefore = 60
	shownAfter  = 40
)

// Format shows problems as the cook reads them, each as
//
//	supper.yaml:14:5: unknown key `tkaes` in a step
//	      - {do: Roast, tkaes: 3h}
//	                    ^
//	hint: did you mean `takes`?
//
// with an empty line between them. name is the file's name as the cook typed
// it; src is its text. A problem of another file brings its line along.
func Format(name string, src []byte, ps plan.Problems) string {
	s := newSource(src)
	var b strings.Builder
	for i, p := range ps {
		if i > 0 {
			b.WriteByte('\n')
		}
		file, text := name, ""
		switch {
		case p.File != "":
			file, text = clean([]rune(p.File)), p.Line
		case p.Pos.Line > 0 && p.Pos.Line <= len(s.lines):
			text = s.lines[p.Pos.Line-1]
		}
		b.WriteString(file)
		if p.Pos.Line > 0 {
			fmt.Fprintf(&b, ":%d:%d", p.Pos.Line, max(1, p.Pos.Col))
		}
		b.WriteString(": ")
		if p.Severity == plan.Notice {
			b.WriteString("note: ")
		}
		b.WriteString(p.Text + "\n")
		if line, at := snippet(text, max(1, p.Pos.Col)); strings.TrimSpace(line) != "" {
			fmt.Fprintf(&b, "  %s\n  %s^\n", strings.TrimRight(line, " "), strings.Repeat(" ", at))
		}
		for _, h := range p.Hints {
			b.WriteString("hint: " + clean([]rune(h)) + "\n")
		}
	}
	return b.String()
}

// snippet returns the part of a line around character col, clean of control
// characters, and how many cells of it lie before that character. A tab is
// shown as four blanks.
func snippet(line string, col int) (shown string, at int) {
	// Only what may be shown is looked at: a line may have a million characters.
	var text []rune
	first, last, n := max(0, col-1-shownBefore), col+shownAfter, 0
	if len(line) <= utf8.UTFMax*shownWhole && utf8.RuneCountInString(line) <= shownWhole {
		first, last = 0, shownWhole
	}
	more := false
	for _, r := range line {
		if more = n == last; more {
			break
		}
		if n >= first {
			text = append(text, r)
		}
		n++
	}
	before := min(col-1-first, len(text))
	head, tail := clean(text[:before]), clean(text[before:])
	if first > 0 {
		head = "…" + head
	}
	if more {
		tail += "…"
	}
	return head + tail, ansi.StringWidth(head)
}

func clean(text []rune) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\t':
			b.WriteString("    ")
		case r == '\r':
		case r == '\u2028' || r == '\u2029' || !unicode.IsPrint(r) && !unicode.Is(unicode.M, r):
			b.WriteRune('\uFFFD')
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
