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

// waits reads an elastic length: "10m to 20m", "at least 2h", or "20m" for
// neither more nor less.
func waits(s string) (plan.Length, error) {
	s = strings.TrimSpace(s)
	l := plan.Length{Elastic: true}
	var err error
	if least, ok := strings.CutPrefix(s, "at least "); ok {
		if err = notInPlace(least); err != nil {
			return l, err
		}
		if l.Shortest, err = Duration(least); err != nil {
			return l, err
		}
		l.Likely, l.Longest = l.Shortest, plan.Forever
		return l, nil
	}
	if err = notInPlace(s); err != nil {
		return l, err
	}
	if l.Shortest, l.Longest, _, err = durationRange(s); err != nil {
		return l, err
	}
	l.Likely = l.Shortest
	if l.Longest == 0 {
		return l, &mistake{"duration", "a wait of no time is no wait", "write it like 10m to 20m"}
	}
	return l, nil
}

// notInPlace refuses a wait in a cold place: such places are not counted yet.
func notInPlace(s string) error {
	if length, where, ok := strings.Cut(s, " in "); ok {
		return &mistake{"not-yet-supported", fmt.Sprintf("a wait in a place (%s) is not yet supported", quote(where)),
			fmt.Sprintf("leave the place out: waits: %s", length)}
	}
	return nil
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
