package planfile

import (
	"regexp"
	"strings"
)

// respell answers a mistake in s with all of s as it would be right, where the
// other spelling of its units is all that is wrong with it.
func respell[T any](s string, err error, read func(string) (T, error)) error {
	m, ok := err.(*mistake)
	right := respelled(s)
	if !ok || right == s {
		return err
	}
	if _, err := read(right); err != nil {
		return m
	}
	return &mistake{m.code, m.text, "write " + right}
}

var numberAndWord = regexp.MustCompile(`(?:([0-9.]+)( to | ?[-–—] ?))?([0-9]+(?:\.[0-9]+)?) ?(\pL+)( [0-9])?`)

// respelled writes the units of all durations in s as a plan does: "1 hour 30
// min" becomes "1h30m", "10 to 20 min" becomes "10m to 20m". Everything else
// stays.
func respelled(s string) string {
	return numberAndWord.ReplaceAllStringFunc(s, func(found string) string {
		m := numberAndWord.FindStringSubmatch(found)
		u, ok := unitWords[strings.ToLower(m[4])]
		if !ok {
			return found
		}
		right := m[3] + u + strings.TrimPrefix(m[5], " ")
		if m[1] != "" {
			right = m[1] + u + m[2] + right
		}
		return right
	})
}
