package planfile

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// plain maps the Latin letters that Unicode does not take apart into a letter
// and a mark.
var plain = map[rune]string{
	'ß': "ss", 'æ': "ae", 'œ': "oe", 'ø': "o", 'ł': "l", 'đ': "d", 'ð': "d",
	'þ': "th", 'ħ': "h", 'ı': "i", 'ŋ': "n", 'ŧ': "t",
}

// slug returns text as a reference is written: lower case, accents folded,
// anything else than letters and digits a hyphen.
//
//	"Crème brûlée, Ines's way" → "creme-brulee-iness-way"
func slug(text string) string {
	var b strings.Builder
	gap := false
	for _, r := range norm.NFKD.String(strings.ToLower(text)) {
		switch {
		case unicode.Is(unicode.Mn, r) || r == '\'' || r == '’':
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			if s, ok := plain[r]; ok {
				b.WriteString(s)
			} else {
				b.WriteRune(unicode.ToLower(r))
			}
		default:
			gap = true
		}
	}
	return b.String()
}

// quote shows a value of the file in a message: short, on one line.
func quote(s string) string { return `"` + short(s) + `"` }

// quotes shows how to write s in the file.
func quotes(s string) string {
	s = short(s)
	if !strings.Contains(s, `"`) && !strings.Contains(s, `\`) {
		return `"` + s + `"`
	}
	return "'" + strings.ReplaceAll(s, "'", "''") + "'"
}

// tick shows a key in a message.
func tick(s string) string { return "`" + short(s) + "`" }

// maxShown is how many characters of a value a message shows.
const maxShown = 60

// short cuts s to what a message shows and cleans it of control characters.
func short(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range strings.TrimSpace(s) {
		if n++; n > maxShown {
			b.WriteString("…")
			break
		}
		if !unicode.IsGraphic(r) || r == '\u2028' || r == '\u2029' {
			r = ' '
		}
		b.WriteRune(r)
	}
	return b.String()
}
