package planfile

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// takes reads an uncertain length: "8m", "25-35m" (the middle is likely),
// "30m (25m-45m)" (likely, shortest, longest).
func takes(s string) (plan.Length, error) {
	s = strings.TrimSpace(s)
	likely, inside, both := cutParens(s)
	var l plan.Length
	var err error
	if both {
		if l.Likely, err = Duration(likely); err != nil {
			return l, err
		}
		var ranged bool
		if l.Shortest, l.Longest, ranged, err = durationRange(inside); err != nil {
			return l, err
		}
		if !ranged {
			return l, &mistake{"duration", fmt.Sprintf("%s is no range", quote(inside)),
				"write shortest and longest, like 30m (25m-45m)"}
		}
		if l.Likely < l.Shortest || l.Likely > l.Longest {
			return l, &mistake{"range", fmt.Sprintf("%s is not within %s", likely, inside),
				"the likely time lies between the shortest and the longest"}
		}
	} else {
		if l.Shortest, l.Longest, _, err = durationRange(s); err != nil {
			return l, err
		}
		l.Likely = l.Shortest + (l.Longest-l.Shortest)/2
	}
	if l.Likely == 0 {
		return l, &mistake{"duration", "a step that takes no time is no step", "give it a minute at least"}
	}
	return l, nil
}

// wait is an elastic length and where the food stands meanwhile.
type wait struct {
	plan.Length
	cold   string
	places int
}

// waits reads an elastic length: "10m to 20m", "at least 2h", "2h to 2d in
// fridge (2 places)", or "20m" for neither more nor less.
func waits(s string) (wait, error) {
	w := wait{Length: plan.Length{Elastic: true}}
	length, where, placed := strings.Cut(strings.TrimSpace(s), " in ")
	var err error
	if placed {
		if strings.HasPrefix(where, "oven") {
			return w, &mistake{"unknown-place", "a wait stands on the counter, in the fridge or in the freezer",
				"a step that waits in an oven has `oven`: the temperature"}
		}
		if w.cold, w.places, err = coldPlace(strings.TrimPrefix(where, "the ")); err != nil {
			return w, err
		}
	}
	if least, ok := strings.CutPrefix(length, "at least "); ok {
		w.Shortest, err = Duration(least)
		w.Likely, w.Longest = w.Shortest, plan.Forever
		return w, err
	}
	if w.Shortest, w.Longest, _, err = durationRange(length); err != nil {
		return w, err
	}
	w.Likely = w.Shortest
	if w.Longest == 0 {
		return w, &mistake{"duration", "a wait of no time is no wait", "write it like 10m to 20m"}
	}
	return w, nil
}

// gap reads the time allowed between two steps: one value is the least, a
// range gives least and greatest.
func gap(s string) (least, greatest time.Duration, hasMax bool, err error) {
	least, greatest, hasMax, err = durationRange(s)
	return least, greatest, hasMax, err
}

// cutParens splits "a (b)".
func cutParens(s string) (before, inside string, ok bool) {
	before, inside, ok = strings.Cut(s, "(")
	if !ok || !strings.HasSuffix(inside, ")") {
		return s, "", false
	}
	return strings.TrimSpace(before), strings.TrimSpace(strings.TrimSuffix(inside, ")")), true
}
