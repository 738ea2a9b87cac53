package planfile

import (
	"strings"

	"gopkg.in/yaml.v3"
)

// source is the text of the file in lines, for messages that show it.
type source struct {
	lines []string // at least one
}

// breaks are the line breaks of YAML 1.1.
var breaks = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u0085", "\n", "\u2028", "\n", "\u2029", "\n")

func newSource(src []byte) source {
	text := strings.TrimPrefix(string(src), "\ufeff")
	return source{strings.Split(breaks.Replace(text), "\n")}
}

// indent returns the column of the first character of a line that is no blank.
func (s source) indent(line int) int {
	text := s.lines[line-1]
	t := strings.TrimLeft(text, " \t")
	if t == "" {
		return 1
	}
	return len(text) - len(t) + 1
}

// above returns the last line before line that is neither empty nor a comment.
func (s source) above(line int) string {
	for i := line - 2; i >= 0; i-- {
		if t := strings.TrimSpace(s.lines[i]); t != "" && t[0] != '#' {
			return s.lines[i]
		}
	}
	return ""
}

// textOf returns the text from the start of n to the end of its line, without
// a comment: what the cook took for plain text. Empty where n goes over several
// lines.
func (s source) textOf(n *yaml.Node) string {
	if n.Line < 1 || n.Line > len(s.lines) || n.Column < 1 {
		return ""
	}
	if len(n.Content) > 0 && n.Content[len(n.Content)-1].Line != n.Line {
		return ""
	}
	line := []rune(s.lines[n.Line-1])
	if n.Column > len(line) {
		return ""
	}
	text, _, _ := strings.Cut(string(line[n.Column-1:]), " #")
	if n.Style&yaml.FlowStyle == 0 {
		return strings.TrimSpace(text)
	}
	// Of brackets: up to the one that closes them, and what follows in plain text.
	depth := 0
	for i, r := range text {
		switch r {
		case '[', '{':
			depth++
		case ']', '}':
			if depth--; depth == 0 {
				return text[:i+1]
			}
		}
	}
	return strings.TrimSpace(text)
}
