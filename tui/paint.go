package tui

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"golang.org/x/text/unicode/norm"

	"example.org/kettledrum/tui/theme"
)

// line is one line of the screen while it is put together: text with looks,
// never wider than it may be.
type line struct {
	th   *theme.Theme
	b    strings.Builder
	w    int // cells written
	max  int // cells there are
	base theme.Style
}

func newLine(th *theme.Theme, width int) *line { return &line{th: th, max: max(0, width)} }

// blank returns an empty line of the width.
func blank(width int) string { return spaces(max(0, width)) }

const manySpaces = "                                                                                                                                "

func spaces(n int) string {
	if n <= len(manySpaces) {
		return manySpaces[:n]
	}
	return strings.Repeat(" ", n)
}

// put adds text, cut with a sign of it where it does not fit.
func (l *line) put(tok theme.Token, s string) *line { return l.styled(l.th.Style(tok), s) }

func (l *line) styled(st theme.Style, s string) *line {
	s = clean(s, l.th.ASCII)
	w := width(s)
	if room := l.max - l.w; w > room {
		s = cut(s, room, l.th.Set.More)
		w = width(s)
	}
	if s == "" {
		return l
	}
	if st.On == "" {
		l.b.WriteString(s)
	} else {
		l.b.WriteString(st.On)
		l.b.WriteString(s)
		l.b.WriteString(st.Off)
	}
	l.w += w
	return l
}

// whole adds text only where all of it fits.
func (l *line) whole(tok theme.Token, s string) *line {
	if s = clean(s, l.th.ASCII); l.w+width(s) > l.max {
		return l
	}
	return l.put(tok, s)
}

// field adds text in a column of n cells, left-aligned.
func (l *line) field(tok theme.Token, s string, n int) *line {
	end := l.w + n
	l.put(tok, cut(clean(s, l.th.ASCII), n, l.th.Set.More))
	return l.to(end)
}

// right adds text right-aligned in a column of n cells.
func (l *line) right(tok theme.Token, s string, n int) *line {
	s = cut(clean(s, l.th.ASCII), n, l.th.Set.More)
	return l.to(l.w+n-width(s)).put(tok, s)
}

// to adds spaces up to a column.
func (l *line) to(col int) *line {
	if n := min(col, l.max) - l.w; n > 0 {
		if l.base.On != "" {
			l.b.WriteString(l.base.On)
			l.b.WriteString(spaces(n))
			l.b.WriteString(l.base.Off)
		} else {
			l.b.WriteString(spaces(n))
		}
		l.w += n
	}
	return l
}

// done fills the line up to its width.
func (l *line) done() string {
	l.to(l.max)
	return l.b.String()
}

// bar adds a bar of n cells of which the share 0 to 1 is filled.
func (l *line) bar(tok theme.Token, share float64, n int) *line {
	if n = min(n, l.max-l.w); n <= 0 {
		return l
	}
	halves := int(min(1, max(0, share))*float64(2*n) + 0.5)
	full, half := halves/2, halves%2
	set := &l.th.Set
	l.put(tok, strings.Repeat(set.Filled, full)+strings.Repeat(set.Half, half))
	return l.put(theme.Track, strings.Repeat(set.Track, n-full-half))
}

// width is how many cells clean text takes.
func width(s string) int {
	for i := range len(s) {
		if s[i] >= utf8.RuneSelf {
			return ansi.StringWidth(s)
		}
	}
	return len(s)
}

// cut shortens text to n cells, its end replaced by a sign of it.
func cut(s string, n int, more string) string {
	switch {
	case n <= 0:
		return ""
	case width(s) <= n:
		return s
	case n <= width(more): // no room for both
		return ansi.Truncate(s, n, "")
	}
	return ansi.Truncate(s, n, more)
}

// clean takes out of a text what would move the cursor or disturb the screen:
// control characters, escape sequences, line breaks and marks that change the
// direction of writing. For a terminal without Unicode it spells the rest in
// ASCII. All text of a plan or a journal passes here before it is shown.
func clean(s string, ascii bool) string {
	plain := true
	for i := range len(s) {
		if s[i] < ' ' || s[i] >= 0x7f {
			plain = false
			break
		}
	}
	if plain {
		return s
	}
	if strings.ContainsRune(s, 0x1b) {
		s = ansi.Strip(s)
	}
	if ascii {
		s = spell(s)
	}
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t':
			return ' '
		case unicode.IsControl(r), unicode.Is(unicode.Bidi_Control, r), r == utf8.RuneError, r == 0x2028, r == 0x2029,
			unicode.Is(unicode.Prepended_Concatenation_Mark, r): // it would swallow the sign after it
			return -1
		case ascii && r > unicode.MaxASCII:
			return '?'
		}
		return r
	}, s)
}

var spelling = strings.NewReplacer(" °", " ", "°", " ", "·", "-", "…", "...", "–", "-", "—", "-", "−", "-", "‘", "'", "’", "'",
	"“", `"`, "”", `"`, "½", "1/2", "¼", "1/4", "¾", "3/4", "×", "x", "ß", "ss", "æ", "ae", "ø", "o", "œ", "oe", "\u00a0", " ")

// spell writes in ASCII what can be: accents are dropped.
func spell(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, norm.NFD.String(spelling.Replace(s)))
}

// wrap breaks text into at most n lines of the width, at spaces where it can.
// What does not fit in the last line is cut with a sign of it.
func (th painter) wrap(s string, w, n int) []string {
	s = clean(s, th.ASCII)
	if n <= 0 || w <= 0 {
		return nil
	}
	var out []string
	for s != "" && len(out) < n-1 && width(s) > w {
		head := ansi.Truncate(s, w+1, "")
		at := strings.LastIndexByte(head, ' ')
		if at > 0 && strings.HasPrefix(s[at:], " °") { // a number keeps its unit
			at = strings.LastIndexByte(head[:at], ' ')
		}
		if at <= 0 {
			head = ansi.Truncate(s, w, "")
			if at = len(head); at == 0 { // one sign wider than the line
				return append(out, "")
			}
		}
		// The end of a line stands for the dots between two facts.
		dot := strings.TrimSpace(th.dot())
		out = append(out, strings.TrimRight(strings.TrimSuffix(strings.TrimRight(s[:at], " "), " "+dot), " "))
		s = strings.TrimLeft(strings.TrimPrefix(strings.TrimLeft(s[at:], " "), dot+" "), " ")
	}
	return append(out, cut(s, w, th.Set.More))
}

// wrapLines is wrap for a text of several lines.
func (th painter) wrapLines(s string, w, n int) []string {
	var out []string
	for part := range strings.SplitSeq(s, "\n") {
		out = append(out, th.wrap(part, w, n-len(out))...)
	}
	return out
}

// painter is the theme, as panes see it.
type painter struct{ *theme.Theme }
