package planfile

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan"
)

// keeps reads how long what a step made may wait: "20m", "5m (15m at most)",
// "3d in fridge", "1mo in freezer", "freely".
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

// keepsIn reads a keep in a cold place, which is a limit.
func keepsIn(length, where string) (plan.Keep, error) {
	switch {
	case strings.HasPrefix(where, "oven"):
		return plan.Keep{}, &mistake{"not-yet-supported", "a keep in the oven is not yet supported", ""}
	case strings.Contains(where, "("):
		return plan.Keep{}, &mistake{"not-yet-supported", "a number of cold places is not yet supported", ""}
	case where != "fridge" && where != "freezer":
		return plan.Keep{}, &mistake{"unknown-place", fmt.Sprintf("%s is no place to keep food", quote(where)),
			"write fridge or freezer, or leave it out for the counter"}
	}
	d, err := Duration(length)
	if err != nil {
		return plan.Keep{}, err
	}
	return plan.Keep{Kind: plan.Limit, For: d, AtMost: d, Place: where}, nil
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
