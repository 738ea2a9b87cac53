package planfile

import (
	"fmt"
	"regexp"
	"strings"

	"example.org/kettledrum/plan"
)

// doAndTime takes a step written as text, "Boil the potatoes, 22m", apart into
// what to do and how long it takes. With an error, do is empty where nobody can
// tell the two apart.
func doAndTime(text string) (do string, l plan.Length, err error) {
	comma := strings.LastIndexByte(text, ',')
	last := strings.TrimSpace(text[comma+1:])
	if comma > 0 {
		do = strings.TrimSpace(text[:comma])
		if l, err = takes(last); err == nil {
			return do, l, nil
		}
	}
	before, time, timed := timeAtEnd(text)
	switch {
	case timed && !strings.HasSuffix(before, ","):
		return "", l, &mistake{"missing", fmt.Sprintf("the step %s has no comma before its time", quote(text)),
			fmt.Sprintf("write %s, %s", short(before), time)}
	case comma > 0 && (timed || likeTime(last)):
		return do, l, respell(last, err, takes)
	}
	return "", l, &mistake{"missing", fmt.Sprintf("the step %s does not say how long it takes", quote(text)),
		"end it with a comma and a time: " + short(text) + ", 10m"}
}

// longestTime is more bytes than any time is written with.
const longestTime = 60

// timeAtEnd finds the longest time that text ends with, whatever the spelling of
// its units, and returns it as a plan writes it and the text before it.
func timeAtEnd(text string) (before, time string, ok bool) {
	for i := max(0, len(text)-longestTime); i < len(text); i++ {
		if text[i] != ' ' {
			continue
		}
		time = respelled(text[i+1:])
		if l, err := takes(time); err == nil && l.Likely > 0 {
			before = text[:i]
			for _, word := range []string{" for", " about"} {
				before = strings.TrimSuffix(before, word)
			}
			return before, time, true
		}
	}
	return "", "", false
}

var (
	beginsAsTime = regexp.MustCompile(`^(?:about |~ ?)?[0-9][0-9.]*(?: ?(?:-|–|—|to) ?[0-9.]+)? ?(\pL*)`)
	lastWord     = regexp.MustCompile(`(\pL+)$`)
)

// likeTime reports whether a part of a text was meant as a time: it begins with
// a number and a unit, maybe misspelt, or ends with the word of a unit.
func likeTime(s string) bool {
	if m := beginsAsTime.FindStringSubmatch(s); m != nil && (m[1] == "" || likeUnit(m[1])) {
		return true
	}
	m := lastWord.FindStringSubmatch(s)
	return m != nil && unitWords[strings.ToLower(m[1])] != ""
}

// likeUnit reports whether word is that of a unit, or close to one that begins
// with the same letter.
func likeUnit(word string) bool {
	word = strings.ToLower(word)
	var alike []string
	for w := range unitWords {
		if w[0] == word[0] {
			alike = append(alike, w)
		}
	}
	_, ok := nearest(word, alike, 3) // which of them does not matter
	return ok || unitIndex(word) >= 0
}
