package planfile

import (
	"fmt"
	"strings"

	"gopkg.in/yaml.v3"
)

// unknownKey reports the key at n.Content[i], and enters in f.meant what was
// rather meant. Where it is the rest of a text that a `,` or a `:` broke, it
// shows the quotes to write.
func (d *decoder) unknownKey(f fields, i int, in place) {
	n := f.node
	k, v := n.Content[i], n.Content[i+1]
	if d.full() {
		d.fail(k, "unknown-key", "")
		return
	}
	if start, text, ok := brokenByComma(n, i); ok {
		if start == i-2 { // told once for all the pieces
			d.fail(k, "broken-text", fmt.Sprintf("a comma ends the text before %s", quote(k.Value)),
				fmt.Sprintf("put the text in quotes: %s: %s", n.Content[start].Value, quotes(text)))
		}
		return
	}
	word, near := d.nearest(k.Value, keys[in], 3)
	text := fmt.Sprintf("unknown key %s in %s", tick(k.Value), in)
	other := elsewhere(k.Value)
	belongs := fmt.Sprintf("%s is a key of %s", tick(k.Value), other)
	switch {
	case near:
		f.meant[word] = true
		hints := []string{fmt.Sprintf("did you mean `%s`?", word)}
		if other != "" {
			hints = append(hints, belongs)
		}
		d.fail(k, "unknown-key", text, hints...)
	case (in == inStep || in == inChore) && len(n.Content) == 2 && v.Kind == yaml.ScalarNode:
		f.meant["do"], f.meant["takes"] = true, true
		d.fail(k, "broken-text", fmt.Sprintf("the colon makes %s a key", quote(k.Value)),
			"put the text in quotes: "+quotes(k.Value+": "+v.Value))
	case other != "":
		d.fail(k, "unknown-key", text, belongs)
	default:
		d.fail(k, "unknown-key", text, "keys are "+strings.Join(keys[in], ", "))
	}
}

// elsewhere returns the first place in which key may stand, empty for none.
func elsewhere(key string) place {
	for _, m := range mappings {
		if contains(keys[m.in], key) {
			return m.in
		}
	}
	return ""
}

// brokenByComma tells whether the key at n.Content[i] is a piece of a text in
// braces that commas broke into keys without values:
//
//	{do: Season with salt, pepper and oil, takes: 5m}
//
// It returns where the text starts and all of it.
func brokenByComma(n *yaml.Node, i int) (start int, text string, ok bool) {
	piece := func(i int) bool {
		k, v := n.Content[i], n.Content[i+1]
		return k.Kind == yaml.ScalarNode && k.Style == 0 && isNothing(v)
	}
	if n.Style&yaml.FlowStyle == 0 || !piece(i) {
		return 0, "", false
	}
	const most = 40 // pieces of one text
	for start = i; start >= 0 && start > i-2*most && piece(start); {
		start -= 2
	}
	if start < 0 || piece(start) || n.Content[start+1].Kind != yaml.ScalarNode {
		return 0, "", false
	}
	text = n.Content[start+1].Value
	for j := start + 2; j < len(n.Content) && piece(j) && j <= start+2*most; j += 2 {
		text += ", " + n.Content[j].Value
	}
	return start, text, true
}
