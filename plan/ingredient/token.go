package ingredient

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is what a token is made of.
type kind int

const (
	word   kind = iota // letters, with apostrophes inside
	number             // digits with a decimal sign, or one fraction character
	mark               // anything else, one character
)

// token is a piece of a line: text[from:to].
type token struct {
	kind     kind
	text     string // lower case
	from, to int
	gap      bool    // a blank stands before it
	value    float64 // of a number
	whole    bool    // the number has digits only
	fraction bool    // the number is a fraction character
}

// fractions are the characters that Unicode has for fractions.
var fractions = map[rune]float64{
	'½': 1. / 2, '⅓': 1. / 3, '⅔': 2. / 3, '¼': 1. / 4, '¾': 3. / 4, '⅕': 1. / 5, '⅖': 2. / 5, '⅗': 3. / 5, '⅘': 4. / 5,
	'⅙': 1. / 6, '⅚': 5. / 6, '⅐': 1. / 7, '⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8, '⅑': 1. / 9, '⅒': 1. / 10,
}

// tokens cuts a line into pieces.
func tokens(text string) []token {
	var out []token
	gap := false
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		t := token{kind: mark, from: i, to: i + size, gap: gap}
		v, isFraction := fractions[r]
		switch {
		case r == ' ':
			gap = true
			i += size
			continue
		case isFraction:
			t.kind, t.value, t.fraction = number, v, true
		case r >= '0' && r <= '9', r == '.' && run(text[i+1:]) > 0 && !follows(text[:i]): // .5
			t.to = i + 1 + digits(text[i+1:])
			if r != '.' {
				t.to = i + digits(text[i:])
			}
			t.kind = number
			t.value, t.whole = decimal(text[i:t.to])
		case inWord(r):
			t.kind = word
			t.to = i + letters(text[i:])
		}
		t.text = strings.ToLower(text[t.from:t.to])
		out = append(out, t)
		gap, i = false, t.to
	}
	return out
}

// follows tells whether a full stop after text goes on with a word or a number.
func follows(text string) bool {
	r, _ := utf8.DecodeLastRuneInString(text)
	return inWord(r) || unicode.IsNumber(r) || r == '.'
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) }

// letters returns the length of the word that s begins with: letters, and
// apostrophes between them.
func letters(s string) int {
	end := 0
	for i, r := range s {
		if inWord(r) {
			end = i + utf8.RuneLen(r)
			continue
		}
		if r != '\'' && r != '’' {
			break
		}
		if next, _ := utf8.DecodeRuneInString(s[i+utf8.RuneLen(r):]); !inWord(next) {
			break
		}
	}
	return end
}

// digits returns the length of the number that s begins with: "400", "2.5",
// "1,000", "2,5".
func digits(s string) int {
	end := run(s)
	for end+1 < len(s) && (s[end] == '.' || s[end] == ',') {
		n := run(s[end+1:])
		if n == 0 || strings.ContainsAny(s[:end], ".") {
			break
		}
		end += 1 + n
	}
	return end
}

// run counts the digits that s begins with.
func run(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// decimal reads a number. A comma before three digits parts thousands, any other
// is a decimal comma.
func decimal(s string) (v float64, whole bool) {
	if head, tail, ok := strings.Cut(s, ","); ok {
		if len(tail) >= 3 && len(head) <= 3 && head != "0" {
			s = strings.ReplaceAll(s, ",", "")
		} else {
			s = head + "." + strings.ReplaceAll(tail, ",", "")
		}
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return -1, false
	}
	return v, !strings.Contains(s, ".")
}
