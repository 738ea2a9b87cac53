package planfile

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// Retime returns the text of a plan in which some steps, by full reference, take
// another length. Nothing else is touched: every byte outside of those values stays,
// whatever the style, the order, the comments and the line ends. A step whose length
// is that already stays as it is written.
//
// The text is read again before it is returned: it must be the same plan but for those
// lengths. Errors: the problems of a text that is no plan; one at each step that is not
// there, waits, or is written so that its length cannot be replaced alone.
func Retime(src []byte, o Options, lengths map[string]plan.Length) ([]byte, plan.Problems) {
	p, ps := Decode(src, o)
	if ps.HasErrors() {
		return nil, ps
	}
	bom := len(src) - len(bytes.TrimPrefix(src, []byte("\ufeff")))
	body := src[bom:]
	doc, _, err := parseNodes(body)
	if err != nil {
		return nil, plan.Problems{syntaxProblem(newSource(src), err)}
	}
	nodes := stepNodes(doc.Content[0])
	var edits []edit
	var wrong plan.Problems
	for id, l := range lengths {
		i := p.StepIndex(id)
		if i < 0 {
			wrong = append(wrong, plan.Problem{Code: "unknown-step", Pos: plan.Pos{Line: 1, Col: 1}, Text: fmt.Sprintf("there is no step %s", quote(id))})
			continue
		}
		step := &p.Steps[i]
		if step.Length == l {
			continue
		}
		n, whole := nodes[step.Pos], false
		if n != nil && n.Kind == yaml.MappingNode {
			n, whole = child(n, "takes"), true
		}
		e, ok := edit{}, false
		if n != nil && n.Kind == yaml.ScalarNode && !step.Length.Elastic {
			e, ok = valueAt(body, n, whole)
		}
		if !ok {
			wrong = append(wrong, notInPlace(step, l))
			continue
		}
		e.text, e.node, e.step, e.length = WriteLength(l), n, i, l
		edits = append(edits, e)
	}
	if wrong.HasErrors() {
		wrong.Sort()
		return nil, wrong
	}
	slices.SortFunc(edits, func(a, b edit) int { return cmp.Compare(a.from, b.from) })
	out, at := slices.Clone(src[:bom]), 0
	for _, e := range edits {
		out = append(append(out, body[at:e.from]...), e.text...)
		at = e.to
	}
	out = append(out, body[at:]...)
	if wrong := recheck(out, o, p, doc, edits); wrong.HasErrors() {
		return nil, wrong
	}
	return out, nil
}

// notInPlace tells that a length must be written by hand.
func notInPlace(s *plan.Step, l plan.Length) plan.Problem {
	return plan.Problem{Code: "not-in-place", Pos: s.Pos, Text: "the length of this step is written so that it cannot be replaced alone",
		Hints: []string{"write " + WriteLength(l) + " yourself"}}
}

// WriteLength writes an uncertain length as a plan does: "30m (25m-45m)", "30m".
func WriteLength(l plan.Length) string {
	if l.Shortest == l.Likely && l.Likely == l.Longest {
		return written(l.Likely)
	}
	return fmt.Sprintf("%s (%s-%s)", written(l.Likely), written(l.Shortest), written(l.Longest))
}

// edit is a stretch of the text to be replaced.
type edit struct {
	from, to int // bytes
	text     string
	node     *yaml.Node
	step     int
	length   plan.Length
}

// stepNodes returns the nodes of the steps and chores, by where they start.
func stepNodes(root *yaml.Node) map[plan.Pos]*yaml.Node {
	out := map[plan.Pos]*yaml.Node{}
	add := func(list *yaml.Node) {
		if list == nil || list.Kind != yaml.SequenceNode {
			return
		}
		for _, n := range list.Content {
			out[pos(n)] = n
		}
	}
	add(child(root, "chores"))
	if dishes := child(root, "dishes"); dishes != nil {
		for _, n := range dishes.Content {
			add(child(n, "steps"))
		}
	}
	return out
}

// valueAt finds where a length stands in the text: all of a scalar where it is whole,
// else what follows its last comma. Blanks around it are not part of it.
func valueAt(body []byte, n *yaml.Node, whole bool) (edit, bool) {
	from, ok := offsetOf(body, n.Line, n.Column)
	if !ok {
		return edit{}, false
	}
	var to int
	switch {
	case n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) != 0:
		if from, to, ok = insideQuotes(body, from); !ok {
			return edit{}, false
		}
		if !whole { // a comma that is written as an escape is not seen: recheck refuses that
			from += bytes.LastIndexByte(body[from:to], ',') + 1
		}
	default:
		if n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
			from += endOfLine(body[from:]) // after | or >
		}
		if to, ok = wordsEnd(body, from, n.Value); !ok {
			return edit{}, false
		}
		if !whole {
			from = wordsStart(body, to, n.Value[strings.LastIndexByte(n.Value, ',')+1:])
		}
	}
	text := body[from:to]
	lead := len(text) - len(bytes.TrimLeftFunc(text, unicode.IsSpace))
	trail := len(text) - len(bytes.TrimRightFunc(text, unicode.IsSpace))
	return edit{from: from + lead, to: to - trail}, lead < len(text)
}

// offsetOf returns the byte at which a line and a character of it begin, both from 1.
// Lines end as YAML has it: CR LF, CR, LF, NEL, LS, PS.
func offsetOf(body []byte, line, col int) (int, bool) {
	at := 0
	for ; line > 1; line-- {
		end := endOfLine(body[at:])
		if end == 0 {
			return 0, false
		}
		at += end
	}
	for ; col > 1; col-- {
		if at >= len(body) {
			return 0, false
		}
		_, size := utf8.DecodeRune(body[at:])
		at += size
	}
	return at, at < len(body)
}

// endOfLine returns the number of bytes up to and with the first line break.
func endOfLine(b []byte) int {
	for i := 0; i < len(b); {
		r, size := utf8.DecodeRune(b[i:])
		i += size
		switch r {
		case '\r':
			if i < len(b) && b[i] == '\n' {
				i++
			}
			return i
		case '\n', '\u0085', '\u2028', '\u2029':
			return i
		}
	}
	return len(b)
}

// insideQuotes returns the stretch between the quote at a byte and the one that closes it.
func insideQuotes(body []byte, at int) (from, to int, ok bool) {
	quote := body[at]
	if quote != '"' && quote != '\'' {
		return 0, 0, false
	}
	for i := at + 1; i < len(body); i++ {
		switch {
		case quote == '"' && body[i] == '\\':
			i++
		case body[i] != quote:
		case quote == '\'' && i+1 < len(body) && body[i+1] == '\'':
			i++
		default:
			return at + 1, i, true
		}
	}
	return 0, 0, false
}

// wordsEnd returns where the words of a value end in the text, which has them from a
// byte on with any blanks and line breaks
// between them: outside of quotes there are no escapes.
func wordsEnd(body []byte, from int, value string) (int, bool) {
	at := from
	for _, r := range value {
		if unicode.IsSpace(r) {
			continue
		}
		for {
			c, size := utf8.DecodeRune(body[at:])
			if at += size; size > 0 && c == r {
				break
			}
			if size == 0 || !unicode.IsSpace(c) {
				return 0, false
			}
		}
	}
	return at, at > from
}

// wordsStart returns where the words begin that end at a byte.
func wordsStart(body []byte, to int, words string) int {
	left := 0
	for _, r := range words {
		if !unicode.IsSpace(r) {
			left++
		}
	}
	for ; to > 0 && left > 0; left-- {
		r, size := utf8.DecodeLastRune(body[:to])
		if to -= size; unicode.IsSpace(r) {
			left++
		}
	}
	return to
}

// recheck reads a text with edits again. It must have the nodes of the text before but
// for those that were edited, and the plan of it those lengths.
func recheck(text []byte, o Options, was *plan.Plan, tree *yaml.Node, edits []edit) (ps plan.Problems) {
	is, wrong := Decode(text, o)
	doc, _, err := parseNodes(bytes.TrimPrefix(text, []byte("\ufeff")))
	edited := map[*yaml.Node]bool{}
	for _, e := range edits {
		edited[e.node] = true
	}
	alike := err == nil && sameTree(tree, doc, edited)
	for _, e := range edits {
		step := &was.Steps[e.step]
		switch {
		case alike && wrong.HasErrors():
			first := wrong[slices.IndexFunc(wrong, func(p plan.Problem) bool { return p.Severity == plan.Error })]
			ps = append(ps, plan.Problem{Code: "not-in-place", Pos: step.Pos,
				Text: fmt.Sprintf("with %s the plan is wrong: line %d: %s", e.text, first.Pos.Line, first.Text), Hints: first.Hints})
			return ps
		case !alike, is.Steps[e.step].Length != e.length, is.Steps[e.step].ID != step.ID, is.Steps[e.step].Do != step.Do:
			ps = append(ps, notInPlace(step, e.length))
		}
	}
	ps.Sort()
	return ps
}

// sameTree reports whether two trees are written alike but for the values of some
// nodes of the first. Cost: O(nodes).
func sameTree(a, b *yaml.Node, edited map[*yaml.Node]bool) bool {
	if a.Kind != b.Kind || a.Style != b.Style || len(a.Content) != len(b.Content) {
		return false
	}
	if !edited[a] && (a.Tag != b.Tag || a.Value != b.Value) {
		return false
	}
	for i := range a.Content {
		if !sameTree(a.Content[i], b.Content[i], edited) {
			return false
		}
	}
	return true
}
