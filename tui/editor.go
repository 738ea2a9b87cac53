package tui

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestInput is how much can be typed into a prompt, in characters.
const longestInput = 80

// editor is one line being typed. The cursor is at its end: what is typed here
// is a few words, and taking them back from the end is quick.
type editor struct{ text string }

// takes reports whether a key belongs to the line and not to the table of keys.
func (editor) takes(k KeyMsg) bool {
	return k.Text != "" || k.Key == "backspace" || k.Key == "ctrl+u" || k.Key == "ctrl+w" || k.Key == "ctrl+h"
}

// typed returns the line after a key.
func (e editor) typed(k KeyMsg) editor {
	switch k.Key {
	case "backspace", "ctrl+h":
		_, n := utf8.DecodeLastRuneInString(e.text)
		return editor{e.text[:len(e.text)-n]}
	case "ctrl+u":
		return editor{}
	case "ctrl+w":
		t := strings.TrimRight(e.text, " ")
		return editor{t[:strings.LastIndexByte(t, ' ')+1]}
	}
	t := e.text + strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == utf8.RuneError {
			return -1
		}
		return r
	}, k.Text)
	if utf8.RuneCountInString(t) > longestInput {
		return e
	}
	return editor{t}
}
