package planfile

import (
	"fmt"
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

// fields is one mapping of the file after its keys were checked.
type fields struct {
	node *yaml.Node
	vals map[string]*yaml.Node
	// meant are the keys that a misspelt one is close to: not to be called
	// missing as well.
	meant map[string]bool
}

// get returns the value of key, nil where the file does not have it.
func (f fields) get(key string) *yaml.Node { return f.vals[key] }

func pos(n *yaml.Node) plan.Pos { return plan.Pos{Line: max(1, n.Line), Col: max(1, n.Column)} }

// fail records an error at n.
func (d *decoder) fail(n *yaml.Node, code, text string, hints ...string) {
	d.add(plan.Problem{Code: code, Pos: pos(n), Text: text, Hints: hints})
}

// failWith records what a value's grammar answered.
func (d *decoder) failWith(n *yaml.Node, err error) {
	m, ok := err.(*mistake)
	switch {
	case !ok:
		d.fail(n, "value", err.Error())
	case m.hint == "":
		d.fail(n, m.code, m.text)
	default:
		d.fail(n, m.code, m.text, m.hint)
	}
}

// add records a problem. Beyond maxProblems they are counted only: nobody
// reads that many, and a file of nothing else must not take long.
func (d *decoder) add(p plan.Problem) {
	if p.Severity == plan.Error {
		d.found++
	}
	if d.file != "" {
		p.File, p.Line = d.file, d.src.lines[min(max(1, p.Pos.Line), len(d.src.lines))-1]
	}
	if !d.full() {
		d.problems = append(d.problems, p)
		return
	}
	d.dropped++
	d.failed = d.failed || p.Severity == plan.Error
}

// full tells that another problem is only counted: not worth the making of its
// hints.
func (d *decoder) full() bool { return len(d.problems) >= maxProblems }

// fields checks that n is a mapping and that each of its keys may stand there.
func (d *decoder) fields(n *yaml.Node, in place) (fields, bool) {
	f := fields{node: n, vals: map[string]*yaml.Node{}, meant: map[string]bool{}}
	if n.Kind != yaml.MappingNode {
		d.fail(n, "wrong-kind", fmt.Sprintf("%s is written as keys and values, not as %s", in, kindOf(n)),
			"keys are "+strings.Join(keys[in], ", "))
		return f, false
	}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k, v := n.Content[i], n.Content[i+1]
		if k.Kind != yaml.ScalarNode {
			d.fail(k, "wrong-kind", "a key must be a word, not "+kindOf(k))
			continue
		}
		switch {
		case contains(keys[in], k.Value):
			if first, twice := f.vals[k.Value]; twice {
				d.fail(k, "double-key", fmt.Sprintf("`%s` stands twice in %s", k.Value, in),
					fmt.Sprintf("the first is in line %d; keep one", first.Line))
				continue
			}
			f.vals[k.Value] = v
		default:
			d.unknownKey(f, i, in)
		}
	}
	return f, true
}

// scalar returns the plain value of n. An empty value, a list or a mapping is
// an error; where the list or mapping comes from text that was not quoted, the
// error shows the quotes.
func (d *decoder) scalar(n *yaml.Node, what string) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		hint := "write a plain value"
		if t := d.src.textOf(n); t != "" {
			hint = "if it is text, put it in quotes: " + quotes(t)
		}
		d.fail(n, "broken-text", fmt.Sprintf("%s is a plain value, not %s", what, kindOf(n)), hint)
		return "", false
	}
	s := strings.TrimSpace(n.Value)
	if s == "" || isNothing(n) {
		d.fail(n, "empty-value", what+" is empty")
		return "", false
	}
	if strings.ContainsFunc(s, func(r rune) bool { return unicode.IsControl(r) && r != '\n' && r != '\t' }) {
		d.fail(n, "control-character", what+" holds a control character", "take it out")
		return "", false
	}
	return s, true
}

// text reads one line of text; line breaks and runs of blanks become one blank.
func (d *decoder) text(n *yaml.Node, what string) (string, bool) {
	s, ok := d.scalar(n, what)
	return strings.Join(strings.Fields(s), " "), ok
}

// optionalText reads one line of text under key, empty where there is none.
func (d *decoder) optionalText(f fields, key string) string {
	n := f.get(key)
	if n == nil {
		return ""
	}
	s, _ := d.text(n, "`"+key+"`")
	return s
}

// note reads text under `note`, whose line breaks stay.
func (d *decoder) note(f fields) string {
	n := f.get("note")
	if n == nil {
		return ""
	}
	s, _ := d.scalar(n, "`note`")
	return s
}

// texts reads a list of lines under key.
func (d *decoder) texts(f fields, key string) []string {
	n := f.get(key)
	if n == nil {
		return nil
	}
	items := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		items = n.Content
	}
	var out []string
	for _, c := range items {
		if s, ok := d.text(c, "an item of `"+key+"`"); ok {
			out = append(out, s)
		}
	}
	return out
}

// field reads f[key] by a value grammar. It reports whether there is a value
// and it is right.
func field[T any](d *decoder, f fields, key string, read func(string) (T, error)) (T, bool) {
	n := f.get(key)
	var zero T
	if n == nil {
		return zero, false
	}
	return value(d, n, "`"+key+"`", read)
}

// value reads n by a value grammar.
func value[T any](d *decoder, n *yaml.Node, what string, read func(string) (T, error)) (T, bool) {
	var zero T
	s, ok := d.scalar(n, what)
	if !ok {
		return zero, false
	}
	v, err := read(s)
	if err != nil {
		d.failWith(n, respell(s, err, read))
		return zero, false
	}
	return v, true
}

// needText reads the text that the mapping must have under key.
func (d *decoder) needText(f fields, key string, in place) (string, bool) {
	n := f.get(key)
	if n == nil {
		d.missing(f, key, fmt.Sprintf("%s needs `%s`", in, key))
		return "", false
	}
	return d.text(n, "`"+key+"`")
}

// missing reports that f has no key, unless it has it misspelt.
func (d *decoder) missing(f fields, key, text string, hints ...string) {
	if !f.meant[key] {
		d.fail(f.node, "missing", text, hints...)
	}
}

// list returns the items of a list. A single value stands for a list of one.
func (d *decoder) list(n *yaml.Node, what string) []*yaml.Node {
	switch n.Kind {
	case yaml.SequenceNode:
		return n.Content
	case yaml.MappingNode:
		return []*yaml.Node{n}
	}
	if _, ok := d.scalar(n, what); !ok {
		return nil
	}
	return []*yaml.Node{n}
}
