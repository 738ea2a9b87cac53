package safety

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// lexicon finds known words and phrases in what a cook wrote. The longest phrase
// wins, so that "coconut milk" is itself and no milk.
type lexicon[T any] struct {
	entries map[string]T
	longest int      // words of the longest phrase
	twice   []string // phrases that were added more than once: the last holds
}

// hit is a word or phrase that was found, as it was written.
type hit[T any] struct {
	text  string
	value T
}

func (l *lexicon[T]) add(phrase string, v T) {
	if l.entries == nil {
		l.entries = map[string]T{}
	}
	if _, ok := l.entries[phrase]; ok {
		l.twice = append(l.twice, phrase)
	}
	l.entries[phrase] = v
	l.longest = max(l.longest, len(strings.Fields(phrase)))
}

// addAll adds phrases separated by commas.
func (l *lexicon[T]) addAll(v T, phrases string) {
	for p := range strings.SplitSeq(phrases, ",") {
		l.add(strings.Join(strings.Fields(p), " "), v)
	}
}

// find returns what stands in a text, from left to right.
func (l *lexicon[T]) find(text string) []hit[T] {
	var out []hit[T]
	tokens := tokenise(text)
	for i := 0; i < len(tokens); {
		n := l.match(tokens[i:])
		if n == 0 {
			i++
			continue
		}
		v, _ := l.lookup(tokens[i : i+n])
		out = append(out, hit[T]{strings.Join(tokens[i:i+n], " "), v})
		i += n
	}
	return out
}

// match returns how many tokens the longest phrase takes that begins here.
func (l *lexicon[T]) match(tokens []string) int {
	for n := min(l.longest, len(tokens)); n > 0; n-- {
		if _, ok := l.lookup(tokens[:n]); ok {
			return n
		}
	}
	return 0
}

func (l *lexicon[T]) lookup(tokens []string) (v T, ok bool) {
	last := len(tokens) - 1
	head := strings.Join(tokens[:last], " ")
	if head != "" {
		head += " "
	}
	for _, w := range singulars(tokens[last]) {
		if v, ok = l.entries[head+w]; ok {
			return v, true
		}
	}
	return v, false
}

// endings are how a plural is told from its singular.
var endings = [...]struct{ plural, single string }{{"ves", "f"}, {"ies", "y"}, {"es", ""}, {"s", ""}}

// singulars returns what a word may be the plural of, itself first.
func singulars(w string) []string {
	out := []string{w}
	if !strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss") {
		return out
	}
	for _, end := range endings {
		if s, ok := strings.CutSuffix(w, end.plural); ok && len(s) >= 2 {
			out = append(out, s+end.single)
		}
	}
	return out
}

// isOf reports whether a word is another, or may be its plural.
func isOf(w, single string) bool {
	if w == single {
		return true
	}
	if !strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss") {
		return false
	}
	for _, end := range endings {
		if s, ok := strings.CutSuffix(w, end.plural); ok && len(s) >= 2 && len(s)+len(end.single) == len(single) && strings.HasPrefix(single, s) && strings.HasSuffix(single, end.single) {
			return true
		}
	}
	return false
}

// folded takes letters apart that plans write with marks.
var folded = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ý", "y", "æ", "ae", "œ", "oe", "ß", "ss", "'", "", "’", "",
)

// tokenise returns the words of a text: lower case, without marks, split at
// anything that is neither letter nor digit.
func tokenise(text string) []string {
	plain := strings.ToLower(text)
	if strings.ContainsFunc(plain, func(r rune) bool { return r == '\'' || r >= utf8.RuneSelf }) {
		plain = strings.Map(func(r rune) rune {
			if unicode.Is(unicode.Mn, r) {
				return -1
			}
			return r
		}, folded.Replace(plain))
	}
	return strings.FieldsFunc(plain, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// says reports whether a text has one of the words or phrases, as they stand or in
// the plural.
func says(text string, phrases ...string) bool {
	tokens := tokenise(text)
	for i := range tokens {
		for _, p := range phrases {
			if p[0] == tokens[i][0] && begins(tokens[i:], p) { // most phrases fail at their first letter
				return true
			}
		}
	}
	return false
}

// begins reports whether tokens begin with a phrase, whose last word may be in the
// plural.
func begins(tokens []string, phrase string) bool {
	for _, t := range tokens {
		word, rest, more := strings.Cut(phrase, " ")
		if !more {
			return isOf(t, word)
		}
		if t != word {
			return false
		}
		phrase = rest
	}
	return false
}
