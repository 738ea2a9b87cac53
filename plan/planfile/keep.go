package planfile

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// keeps reads how long what a step made may wait: "20m", "5m (15m at most)",
// "3d in fridge (2 places)", "1mo in freezer", "1h in oven at 170-200F", "freely".
func keeps(s string) (plan.Keep, error) {
	s = strings.TrimSpace(s)
	if s == "freely" {
		return plan.Keep{Kind: plan.Freely}, nil
	}
	if length, where, ok := strings.Cut(s, " in "); ok {
		return keepsIn(length, strings.TrimPrefix(where, "the "))
	}
	liking, inside, both := cutParens(s)
	d, err := Duration(liking)
	if err != nil {
		return plan.Keep{}, err
	}
	k := assumeLimit(plan.Keep{Kind: plan.Liking, For: d})
	if both {
		most, ok := strings.CutSuffix(inside, " at most")
		if !ok {
			return k, &mistake{"duration", fmt.Sprintf("%s is not understood", quote("("+inside+")")),
				"write it like 5m (15m at most)"}
		}
		if k.AtMost, err = Duration(most); err != nil {
			return k, err
		}
		if k.AtMost < k.For {
			return k, &mistake{"range", fmt.Sprintf("%s at most is shorter than %s", most, liking),
				"the first is what is liked, the second the limit"}
		}
	}
	return k, nil
}

// keepsIn reads a keep in a cold place or in an oven, which is a limit.
func keepsIn(length, where string) (plan.Keep, error) {
	d, err := Duration(length)
	if err != nil {
		return plan.Keep{}, err
	}
	k := plan.Keep{Kind: plan.Limit, For: d, AtMost: d}
	if rest, ok := strings.CutPrefix(where, "oven"); ok {
		heat, ok := strings.CutPrefix(rest, " at ")
		if !ok {
			return k, &mistake{"temperature", fmt.Sprintf("%s does not say how warm the oven is", quote(length+" in "+where)),
				fmt.Sprintf("write it like %s in oven at 170-200F", length)}
		}
		k.Place, k.Warm = "oven", &plan.Bake{In: -1, Space: aShelf}
		k.Warm.At, k.Warm.Lo, k.Warm.Hi, err = ovenTemperature(heat)
		return k, err
	}
	k.Place, k.Places, err = coldPlace(where)
	return k, err
}

// warm gives a keep in the oven the space that its step bakes in.
func warm(k plan.Keep, b *plan.Bake) plan.Keep {
	if k.Warm != nil && b != nil {
		w := *k.Warm
		w.In, w.Space = b.In, b.Space
		k.Warm = &w
	}
	return k
}

// coldNames are the cold places that there are.
var coldNames = []string{"fridge", "freezer"}

var places = regexp.MustCompile(`^(\pL+)(?: *\(([0-9]+) places?\))?$`)

// coldPlace reads "fridge" or "freezer (2 places)".
func coldPlace(s string) (name string, n int, err error) {
	m := places.FindStringSubmatch(s)
	switch {
	case m == nil && strings.Contains(s, "("):
		name, _, _ = strings.Cut(s, "(")
		return "", 0, &mistake{"number", fmt.Sprintf("%s does not say how many places it takes", quote(s)),
			fmt.Sprintf("write it like %s (2 places)", strings.TrimSpace(name))}
	case m == nil || !contains(coldNames, m[1]):
		word := s
		if m != nil {
			word = m[1]
		}
		hint := "write fridge, freezer or oven at 170-200F, or leave it out for the counter"
		if w, ok := nearest(word, append(coldNames[:2:2], "oven"), 3); ok {
			hint = fmt.Sprintf("did you mean %s?", w)
		}
		return "", 0, &mistake{"unknown-place", fmt.Sprintf("%s is no place to keep food", quote(word)), hint}
	case m[2] == "":
		return m[1], 1, nil
	}
	n, err = count(1, 1000)(m[2])
	return m[1], n, err
}

// assumeLimit fills in the limit of a liking: twice the liking plus ten
// minutes, at most two hours unless the liking itself is longer.
func assumeLimit(k plan.Keep) plan.Keep {
	k.AtMost = max(k.For, min(2*k.For+10*time.Minute, plan.KeepLimitAtMax))
	return k
}

// assumedKeep returns the keep of a step whose plan says nothing.
func assumedKeep(s *plan.Step) plan.Keep {
	switch {
	case s.Length.Elastic: // stretch the wait instead
		return plan.Keep{Kind: plan.Limit, Assumed: true}
	case s.Oven != nil || s.Burner != nil:
		return assumeLimit(plan.Keep{Kind: plan.Liking, For: plan.KeepAfterHeat, Assumed: true})
	}
	return assumeLimit(plan.Keep{Kind: plan.Liking, For: plan.KeepOtherwise, Assumed: true})
}

// choreKeep is the keep of a chore whose plan says nothing.
var choreKeep = plan.Keep{Kind: plan.Freely, Assumed: true}
