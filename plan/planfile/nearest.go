package planfile

import (
	"strings"
	"unicode/utf8"
)

// maxWord is the longest word, in characters, that is compared with others:
// nobody misspells a word of that length into a known one.
const maxWord = 60

// nearest returns the candidate closest to word by edit distance, the first of
// equals, if one is close enough to be what was meant: at most one
// character in every `per` may differ, and one at least. Capitals do not count.
//
// Cost: O(len(word)·len(candidate)) for each candidate of similar length.
func nearest(word string, candidates []string, per int) (string, bool) {
	n := utf8.RuneCountInString(word)
	if n == 0 || n > maxWord {
		return "", false
	}
	word = strings.ToLower(word)
	best, bestD := "", max(1, n/per)+1
	for _, c := range candidates {
		if m := utf8.RuneCountInString(c); m > maxWord || m-n >= bestD || n-m >= bestD {
			continue
		}
		if d := distance(word, strings.ToLower(c)); d < bestD {
			best, bestD = c, d
		}
	}
	if best == "" || bestD >= n { // a single letter is near to everything
		return "", false
	}
	return best, true
}

// distance returns the least number of insertions, deletions, replacements and
// swaps of neighbours that turn a into b (optimal string alignment).
//
//	d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+[a_i≠b_j],
//	              d[i-2][j-2]+1 where a_i = b_(j-1) and a_(i-1) = b_j)
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	d := make([][]int, len(x)+1)
	for i := range d {
		d[i] = make([]int, len(y)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(x); i++ {
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(x)][len(y)]
}
