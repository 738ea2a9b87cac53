package shop

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/safety"
)

const day = 24 * time.Hour

// produce is how long what has no row in a chart of storage is at its best. Common
// practice.
var produce = []struct {
	keeps time.Duration
	words []string // the last word of the item's key
}{
	{1 * day, []string{"bread", "loaf", "baguette", "roll", "bun", "croissant"}},
	{2 * day, []string{"berry", "strawberry", "raspberry", "blackberry", "blueberry", "redcurrant", "sprout", "fig"}},
	{3 * day, []string{"lettuce", "cress", "watercress", "rocket", "arugula", "spinach", "salad", "basil", "coriander", "cilantro", "dill", "chervil", "tarragon",
		"chive", "mint", "parsley", "asparagus", "mushroom", "corn", "flower"}},
}

// freshFor returns how long before its use a thing may be bought, and why; zero for
// any time.
func freshFor(n need) (time.Duration, string) {
	switch {
	case n.of.Fresh > 0:
		return n.of.Fresh, "as the plan says"
	case n.Frozen:
		return 0, ""
	}
	if row, ok := safety.Raw(n.Text); ok && n.Amount.Pack != "can" && n.Amount.Pack != "tin" && n.Amount.Pack != "jar" {
		return row.Limit(), fmt.Sprintf("raw, it keeps %s in the refrigerator (%s)", days(row.Limit()), row.Source)
	}
	if preserved(n.Line) {
		return 0, ""
	}
	words := strings.Fields(n.key)
	if len(words) == 0 {
		return 0, ""
	}
	for _, row := range produce {
		for _, w := range row.words {
			if words[len(words)-1] == w {
				return row.keeps, "at its best for " + days(row.keeps) + " (common practice)"
			}
		}
	}
	return 0, ""
}

// preserved tells dried herbs and tinned fruit from fresh.
func preserved(l ingredient.Line) bool {
	for _, w := range strings.Fields(strings.ToLower(l.Item)) {
		switch strings.Trim(w, ",") {
		case "dried", "dry", "tinned", "canned", "ground", "candied", "pickled", "preserved":
			return true
		}
	}
	return l.Amount.Pack == "can" || l.Amount.Pack == "tin" || l.Amount.Pack == "jar" ||
		l.Amount.Unit != nil && strings.HasSuffix(l.Amount.Unit.Name, "teaspoon")
}

func days(d time.Duration) string {
	if d == day {
		return "1 day"
	}
	if d%day == 0 {
		return fmt.Sprintf("%d days", d/day)
	}
	return fmt.Sprintf("%d hours", int(d.Hours()))
}
