package planfile

import (
	"fmt"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// count reads a whole number from least to most.
func count(least, most int) func(string) (int, error) {
	return func(s string) (int, error) {
		v, err := strconv.Atoi(s)
		if err != nil || v < least || v > most {
			return 0, &mistake{"number", fmt.Sprintf("%s is no whole number from %d to %d", quote(s), least, most), ""}
		}
		return v, nil
	}
}

// yesNo reads true or false.
func yesNo(s string) (bool, error) {
	switch strings.ToLower(s) {
	case "true", "yes":
		return true, nil
	case "false", "no":
		return false, nil
	}
	return false, &mistake{"value", fmt.Sprintf("%s is neither true nor false", quote(s)), ""}
}

// oneOf reads one of a few words.
func oneOf[T any](words []string, vals []T) func(string) (T, error) {
	return func(s string) (T, error) {
		for i, w := range words {
			if s == w {
				return vals[i], nil
			}
		}
		var zero T
		hint := "write one of " + strings.Join(words, ", ")
		if len(words) == 1 {
			hint = "write " + words[0] + ", or leave it out"
		}
		if w, ok := nearest(strings.ToLower(s), words, 3); ok {
			hint = fmt.Sprintf("did you mean %s?", w)
		}
		if len(words) == 1 {
			return zero, &mistake{"value", fmt.Sprintf("%s is not %s", quote(s), words[0]), hint}
		}
		return zero, &mistake{"value", fmt.Sprintf("%s is not one of %s", quote(s), strings.Join(words, ", ")), hint}
	}
}

func kindOf(n *yaml.Node) string {
	switch {
	case n.Kind == yaml.SequenceNode:
		return "a list"
	case n.Kind == yaml.MappingNode:
		return "keys and values"
	case n.Kind == yaml.AliasNode:
		return "an alias"
	case n.Tag == "!!null" && n.Style == 0:
		return "nothing"
	}
	return "a single value"
}

func contains(words []string, w string) bool {
	for _, x := range words {
		if x == w {
			return true
		}
	}
	return false
}
