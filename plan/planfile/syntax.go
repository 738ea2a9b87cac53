package planfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.org/kettledrum/plan"
)

var yamlLine = regexp.MustCompile(`^yaml: (?:line (\d+): )?(.*)$`)

// syntaxProblem says in a sentence what is wrong with text that is not YAML.
// The library tells a line that may be one off, and no column, so the line
// itself is searched for the usual causes.
func syntaxProblem(src source, err error) plan.Problem {
	line, text := 1, err.Error()
	if m := yamlLine.FindStringSubmatch(text); m != nil {
		text = m[2]
		if m[1] != "" {
			line, _ = strconv.Atoi(m[1])
		}
	}
	line = min(max(1, line), len(src.lines))
	if p, ok := tabProblem(src, line); ok {
		return p
	}
	if strings.Contains(text, "exceeded max depth") {
		return plan.Problem{Code: "too-deep", Pos: plan.Pos{Line: line, Col: src.indent(line)},
			Text: fmt.Sprintf("more than %d levels are nested", MaxDepth)}
	}
	p := plan.Problem{Code: "syntax", Pos: plan.Pos{Line: line, Col: src.indent(line)}}
	for _, c := range causes {
		if strings.Contains(text, c.library) {
			p.Text, p.Hints = c.text, []string{c.hint}
			if c.find != nil {
				if at, ok := c.find(src, line, &p); ok {
					p.Pos = at
				}
			}
			return p
		}
	}
	p.Text = "this is not YAML: " + short(text)
	return p
}

// causes maps what the library says to what a cook can act on.
var causes = []struct {
	library string
	text    string
	hint    string
	find    func(src source, line int, p *plan.Problem) (plan.Pos, bool)
}{
	{"mapping values are not allowed", "a second colon in one line makes no sense here",
		"put text that holds a colon in quotes", findColon},
	{"found unexpected end of stream", "a quote is opened and never closed",
		"close the text with the quote it starts with", findQuote},
	{"found unexpected document indicator", "a quote is opened and never closed",
		"close the text with the quote it starts with", findQuote},
	{"did not find expected ',' or ']'", "a list in brackets is not closed, or a comma is missing",
		"close it with ], and put text that holds brackets or a colon in quotes", findOpen('[')},
	{"did not find expected ',' or '}'", "keys in braces are not closed, or a comma is missing",
		"close them with }, and put text that holds braces or a colon in quotes", findOpen('{')},
	{"did not find expected node content", "a value is missing, or a comma or bracket is one too many", "put text that starts with a sign in quotes", nil},
	{"could not find expected ':'", "a line has neither a key and a colon nor a dash", "write `key: value` or `- item`; a colon wants a blank after it", findBare},
	{"did not find expected key", "a line is not indented like those it belongs to", "keys that belong together start in the same column", findIndent},
	{"did not find expected '-' indicator", "a line is not indented like those it belongs to", "the dashes of a list stand in one column, and so do keys that belong together", findIndent},
	{"block sequence entries are not allowed", "a list must start on a line of its own", "put the first dash on the next line, or text that starts with a dash in quotes", nil},
	{"did not find expected <document start>", "something stands after the end of the plan", "keys of the plan start in the first column", findIndent},
	{"found character that cannot start any token", "a value starts with a sign that YAML keeps for itself", "put it in quotes", findSign},
	{"unknown anchor", "a value starts with `*`, which refers to another value", "put text that starts with * in quotes", findStart('*')},
	{"found unknown escape character", "a backslash in double quotes starts a special character", "use single quotes, or write two backslashes", findStart('\\')},
	{"did not find expected alphabetic or numeric character", "a value starts with `*` or `&`, which YAML keeps for itself", "put it in quotes", findSign},
	{"did not find expected comment or line break", "something stands after | or >", "put text that starts with | or > in quotes", nil},
	{"did not find expected whitespace or line break", "a value starts with `!`, which YAML keeps for itself", "put it in quotes", findStart('!')},
}

// tabProblem finds a tab in the indentation of the lines up to the one after
// the error: the commonest cause of all, told by the library in many ways.
func tabProblem(src source, line int) (plan.Problem, bool) {
	for i := max(1, line-1); i <= min(line+1, len(src.lines)); i++ {
		lead := src.lines[i-1]
		lead = lead[:len(lead)-len(strings.TrimLeft(lead, " \t"))]
		if at := strings.IndexByte(lead, '\t'); at >= 0 && len(lead) < len(src.lines[i-1]) {
			return plan.Problem{Code: "tab", Pos: plan.Pos{Line: i, Col: at + 1},
				Text: "a tab indents this line", Hints: []string{"indent with spaces: YAML does not accept tabs"}}, true
		}
	}
	return plan.Problem{}, false
}

// near calls see for the line, then for those around it, and returns the first
// place it finds; see answers with a byte offset, or -1.
func near(src source, line int, see func(text string) int) (plan.Pos, bool) {
	for _, i := range []int{line, line + 1, line - 1} {
		if i < 1 || i > len(src.lines) {
			continue
		}
		text := src.lines[i-1]
		if at := see(text); at >= 0 {
			return plan.Pos{Line: i, Col: utf8.RuneCountInString(text[:at]) + 1}, true
		}
	}
	return plan.Pos{}, false
}

var secondColon = regexp.MustCompile(`^\s*(?:- )*([\w ]+): +([^"'\[{#\s][^:]*)(: .*)$`)

// findColon points at the second colon of a line and shows the quotes, or at a
// line that is indented too far.
func findColon(src source, line int, p *plan.Problem) (plan.Pos, bool) {
	at, ok := near(src, line, func(text string) int {
		m := secondColon.FindStringSubmatchIndex(text)
		if m == nil {
			if first := strings.Index(text, ": "); first >= 0 {
				if next := strings.Index(text[first+2:], ": "); next >= 0 {
					return first + 2 + next
				}
			}
			return -1
		}
		key, value := text[m[2]:m[3]], text[m[4]:m[7]]
		p.Code = "broken-text"
		p.Text = fmt.Sprintf("the colon in %s makes a key of the words before it", quote(value))
		p.Hints = []string{fmt.Sprintf("put the text in quotes: %s: %s", key, quotes(value))}
		return m[6]
	})
	if !ok { // there is no second colon: the line seems to go on with the one above
		p.Text = "a line is indented further than the one it belongs to"
		p.Hints = []string{"keys that belong together start in the same column"}
		return findIndent(src, line, p)
	}
	return at, true
}

// findQuote points at the quote that is opened last and not closed on its line.
func findQuote(src source, line int, _ *plan.Problem) (plan.Pos, bool) {
	for i := line; i >= 1; i-- {
		text := src.lines[i-1]
		for _, q := range []byte{'"', '\''} {
			if at := openQuote(text, q); at >= 0 {
				return plan.Pos{Line: i, Col: utf8.RuneCountInString(text[:at]) + 1}, true
			}
		}
	}
	return plan.Pos{}, false
}

// openQuote returns where a value opens with q and the line does not close it.
func openQuote(text string, q byte) int {
	open := -1
	for i := 0; i < len(text); i++ {
		switch {
		case text[i] != q:
		case open >= 0:
			open = -1
		case i == 0 || strings.IndexByte(" [{,:-", text[i-1]) >= 0:
			open = i
		}
	}
	return open
}

// findOpen points at the last opening bracket that its line does not close.
func findOpen(b byte) func(source, int, *plan.Problem) (plan.Pos, bool) {
	return func(src source, line int, _ *plan.Problem) (plan.Pos, bool) {
		return near(src, line, func(text string) int { return strings.LastIndexByte(text, b) })
	}
}

func findStart(b byte) func(source, int, *plan.Problem) (plan.Pos, bool) {
	return func(src source, line int, _ *plan.Problem) (plan.Pos, bool) {
		return near(src, line, func(text string) int { return strings.IndexByte(text, b) })
	}
}

var sign = regexp.MustCompile("(?:^|[ :,\\[{-])[@`%*&|>]")

func findSign(src source, line int, _ *plan.Problem) (plan.Pos, bool) {
	return near(src, line, func(text string) int {
		m := sign.FindStringIndex(text)
		if m == nil {
			return -1
		}
		return m[1] - 1
	})
}

// findBare points at a line without a colon, a dash or a comment.
func findBare(src source, line int, _ *plan.Problem) (plan.Pos, bool) {
	return near(src, line, func(text string) int {
		t := strings.TrimSpace(text)
		if t == "" || strings.HasPrefix(t, "#") || strings.HasPrefix(t, "- ") || strings.Contains(t+" ", ": ") {
			return -1
		}
		return len(text) - len(strings.TrimLeft(text, " "))
	})
}

// findIndent points at the first line, from the one told on, whose indentation
// fits none of the lines above it, or at text that goes on behind a closed
// bracket or quote, whichever comes first.
func findIndent(src source, line int, p *plan.Problem) (plan.Pos, bool) {
	var open []int // columns of the blocks that are open, outermost first
	for i, text := range src.lines {
		t := strings.TrimLeft(text, " ")
		if t == "" || t[0] == '#' {
			continue
		}
		at := len(text) - len(t)
		for len(open) > 0 && open[len(open)-1] > at {
			open = open[:len(open)-1]
		}
		fits := len(open) == 0 || open[len(open)-1] == at || strings.HasSuffix(strings.TrimSpace(src.above(i+1)), ":")
		if !fits && i+1 >= line {
			return plan.Pos{Line: i + 1, Col: at + 1}, true
		}
		if m := goesOn.FindStringSubmatchIndex(text); m != nil && i+1 >= line {
			p.Code, p.Text = "broken-text", "the text goes on after "+quote(text[m[2]:m[3]])
			p.Hints = []string{"put all of it in quotes: " + quotes(text[m[2]:])}
			return plan.Pos{Line: i + 1, Col: utf8.RuneCountInString(text[:m[4]]) + 1}, true
		}
		if len(open) == 0 || open[len(open)-1] < at {
			open = append(open, at)
		}
		for strings.HasPrefix(t, "- ") { // the block inside an item
			rest := strings.TrimLeft(t[2:], " ")
			at += len(t) - len(rest)
			t = rest
			open = append(open, at)
		}
	}
	return plan.Pos{}, false
}

// goesOn matches a value in brackets, braces or quotes with more behind it.
var goesOn = regexp.MustCompile(`^\s*(?:- )*(?:[\w ]+: +)?(\[[^\]]*\]|\{[^}]*\}|"[^"]*"|'[^']*')\s+([^\s#:,])`)
