package planfile

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// Limits of a plan file.
const (
	MaxBytes = 1 << 20
	MaxDepth = 64
)

// parse returns the root mapping of a file that holds in, or nil after recording
// why there is none.
func (d *decoder) parse(src []byte, in place) *yaml.Node {
	at := &yaml.Node{Line: 1, Column: 1}
	noun, start := strings.TrimPrefix(string(in), "a "), "start it with `kettledrum: 1`, or copy an example"
	switch in {
	case inKitchen:
		start = "write the keys of a kitchen: " + strings.Join(keys[in], ", ")
	case inScript:
		start = "write `mishaps:` and below it what goes wrong; " + mishapHint
	}
	if len(src) > MaxBytes {
		d.fail(at, "too-large", fmt.Sprintf("the file has %d bytes, more than %d", len(src), MaxBytes), "a "+noun+" is a page of text; is this the right file?")
		return nil
	}
	if !d.isText(src) {
		return nil
	}
	src = bytes.TrimPrefix(src, []byte("\ufeff"))
	doc, more, err := parseNodes(src)
	switch {
	case err != nil:
		d.add(syntaxProblem(d.src, err))
		return nil
	case doc == nil || len(doc.Content) == 0 || isNothing(doc.Content[0]):
		d.fail(at, "empty", fmt.Sprintf("the file holds no %s", noun), start)
		return nil
	case more != nil:
		d.fail(more, "second-document", "a second document starts after `---`", "a file holds one "+noun+"; take the `---` out")
		return nil
	}
	root := doc.Content[0]
	if !d.plainTree(root, noun) {
		return nil
	}
	if root.Kind != yaml.MappingNode {
		d.fail(root, "not-a-plan", fmt.Sprintf("the file holds %s, not %s", kindOf(root), in), start)
		return nil
	}
	return root
}

func isNothing(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Tag == "!!null"
}

// isText records a problem for bytes that are not UTF-8 text.
func (d *decoder) isText(src []byte) bool {
	at := &yaml.Node{Line: 1, Column: 1}
	if bytes.HasPrefix(src, []byte{0xff, 0xfe}) || bytes.HasPrefix(src, []byte{0xfe, 0xff}) {
		d.fail(at, "encoding", "the file is UTF-16 text", "save it as UTF-8")
		return false
	}
	line, start := 1, 0
	for i := 0; i < len(src); {
		r, size := utf8.DecodeRune(src[i:])
		if r == '\n' {
			line, start = line+1, i+1
		}
		at.Line = line
		switch {
		case r == utf8.RuneError && size == 1:
			at.Column = utf8.RuneCount(src[start:i]) + 1
			d.fail(at, "encoding", fmt.Sprintf("byte %#02x is not UTF-8 text", src[i]), "save the file as UTF-8; is this the right file?")
			return false
		case r < ' ' && r != '\t' && r != '\n' && r != '\r' || r >= 0x7f && r < 0xa0 && r != 0x85 || r == 0xfffe || r == 0xffff:
			at.Column = utf8.RuneCount(src[start:i]) + 1
			d.fail(at, "control-character", fmt.Sprintf("the file holds the control character %U", r), "take it out; is this the right file?")
			return false
		}
		i += size
	}
	return true
}

// parseNodes asks the YAML library for the tree of the first document and for
// the start of a second. It is the only call into the library, and the library
// is known to panic.
func parseNodes(src []byte) (doc, more *yaml.Node, err error) {
	defer func() {
		if r := recover(); r != nil {
			doc, more, err = nil, nil, fmt.Errorf("yaml: %v", r)
		}
	}()
	dec := yaml.NewDecoder(bytes.NewReader(src))
	var first, second yaml.Node
	if err := dec.Decode(&first); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, nil, nil
		}
		return nil, nil, err
	}
	if err := dec.Decode(&second); err != nil {
		if errors.Is(err, io.EOF) {
			return &first, nil, nil
		}
		return nil, nil, err
	}
	return &first, &second, nil
}

// plainTree checks that the tree is not too deep and uses nothing of YAML but
// values, lists and mappings. It does not recurse. (The library itself stops at
// 10 000 levels, which it reaches in milliseconds.)
func (d *decoder) plainTree(root *yaml.Node, noun string) bool {
	type item struct {
		n     *yaml.Node
		depth int
	}
	ok := true
	stack := []item{{root, 1}}
	for len(stack) > 0 {
		it := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		n := it.n
		if it.depth > MaxDepth {
			d.fail(n, "too-deep", fmt.Sprintf("more than %d levels are nested", MaxDepth))
			return false
		}
		switch {
		case n.Kind == yaml.AliasNode:
			d.fail(n, "alias", fmt.Sprintf("%s refers to another value of the file", quote("*"+n.Value)),
				"a "+noun+" has no aliases: write the value out, or put text that starts with * in quotes")
			ok = false
		case n.Anchor != "":
			d.fail(n, "alias", fmt.Sprintf("%s gives the value a name", quote("&"+n.Anchor)),
				"a "+noun+" has no anchors: take it out, or put text that starts with & in quotes")
			ok = false
		case n.Style&yaml.TaggedStyle != 0:
			d.fail(n, "tag", fmt.Sprintf("%s is a type of YAML", quote(n.Tag)), "a "+noun+" has no tags: take it out, or put text that starts with ! in quotes")
			ok = false
		}
		if n.Kind == yaml.AliasNode {
			continue
		}
		for i := len(n.Content) - 1; i >= 0; i-- {
			c := n.Content[i]
			if n.Kind == yaml.MappingNode && i%2 == 0 && c.Tag == "!!merge" {
				d.fail(c, "alias", "`<<` merges another mapping", "a "+noun+" has no merge keys: write the values out")
				ok = false
			}
			stack = append(stack, item{c, it.depth + 1})
		}
	}
	return ok
}
