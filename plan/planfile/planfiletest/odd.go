// Package planfiletest has plan files that are oddly written, for tests of what writes
// into them: every style, line end, comment and order that YAML allows and planfile reads.
package planfiletest

import (
	_ "embed"
	"regexp"
	"strings"
)

//go:embed odd.txt
var oddText string

// Odd is a plan that is oddly written.
type Odd struct {
	Name   string
	marked string // the lengths that may change stand between marks
}

var marks = regexp.MustCompile(`⟦[^⟧]*⟧`)

// Text is the file.
func (o Odd) Text() []byte {
	return []byte(strings.NewReplacer("⟦", "", "⟧", "").Replace(o.marked))
}

// Lengths are the lengths that may change, in the order of the file.
func (o Odd) Lengths() []string {
	var out []string
	for _, m := range marks.FindAllString(o.marked, -1) {
		out = append(out, strings.Trim(m, "⟦⟧"))
	}
	return out
}

// With is the file with other lengths, in the order of the file, and not a byte else.
func (o Odd) With(lengths []string) []byte {
	k := -1
	return []byte(marks.ReplaceAllStringFunc(o.marked, func(string) string {
		k++
		return lengths[k]
	}))
}

// Odds returns the plans of odd.txt. There, after ===, stands a name and what is done to
// the text: crlf, cr, bom, nofinal (no line end at the end), unicode (line ends of
// Unicode among the first comments). A text without its first lines gets them.
func Odds() (out []Odd) {
	for _, part := range strings.Split(oddText, "=== ")[1:] {
		head, text, _ := strings.Cut(part, "\n")
		how := strings.Fields(head)
		text = withHead(text)
		for _, what := range how[1:] {
			switch what {
			case "nofinal":
				text = strings.TrimSuffix(text, "\n")
			case "crlf":
				text = strings.ReplaceAll(text, "\n", "\r\n")
			case "cr":
				text = strings.ReplaceAll(text, "\n", "\r")
			case "bom":
				text = "\ufeff" + text
			case "unicode":
				text = "# one\u2028# two\u0085# three\u2029" + text
			default:
				panic(how[0] + ": unknown " + what)
			}
		}
		out = append(out, Odd{how[0], text})
	}
	return out
}

// withHead adds the first lines of a plan, below a line of dashes if there is one.
func withHead(text string) string {
	if strings.Contains(text, "kettledrum") {
		return text
	}
	head := "kettledrum: 1\ntable: 2026-10-17 19:00\nzone: UTC\n"
	if !strings.Contains(text, "title:") {
		head += "title: Odd\n"
	}
	at := 0
	if dashes := strings.Index(text, "---"); dashes >= 0 {
		at = dashes + strings.IndexByte(text[dashes:], '\n') + 1
	}
	return text[:at] + head + text[at:]
}
