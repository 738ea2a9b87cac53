package shop

import (
	"fmt"
	"regexp"
	"slices"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
	"example.org/kettledrum/plan/safety"
)

var thawing = regexp.MustCompile(`(?i)\b(thaw|defrost)`)

// thaws lists what must leave the freezer before its step: what the plan says is
// frozen, and meat and fish whose line says so. Frozen peas go into the pot as they
// are.
func thaws(p *plan.Plan, needs []need) []Thaw {
	var out []Thaw
	for _, n := range needs {
		if !n.Frozen {
			continue
		}
		if _, raw := safety.Raw(n.Text); !raw && !n.of.Frozen {
			continue
		}
		grams, weighed := weight(n)
		takes := safety.ThawFridge(grams / measure.Named("pound").Size)
		th := Thaw{Name: n.Item, Dish: p.Dishes[n.dish].Name, Needed: n.at, Takes: int(takes / time.Hour), Source: "USDA FSIS, The Big Thaw"}
		th.Out = n.at.Add(-takes)
		how := days(takes) + " in the refrigerator at most"
		if !weighed {
			how = "1 day in the refrigerator at least: a day for each 4 lb (1.8 kg), so weigh it"
		}
		if s := &p.Steps[n.step]; thawing.MatchString(s.Do) {
			th.Out, how = n.at, fmt.Sprintf("the plan's own step: %s", s.Do)
		}
		th.Text = how
		out = append(out, th)
	}
	slices.SortStableFunc(out, func(a, b Thaw) int { return a.Out.Compare(b.Out) })
	return out
}

// weight returns the weight of the heaviest single piece of a line, as far as it is
// said.
func weight(n need) (grams float64, ok bool) {
	for _, a := range append(append(n.Also[:0:0], n.Each, n.Amount), n.Also...) {
		if a.Unit != nil && a.Unit.Dimension == measure.Mass && a.Hi > 0 {
			times := n.times
			if !n.Each.None() { // more pieces, not a heavier one
				times = 1
			}
			return a.Hi * a.Unit.Size * times, true
		}
	}
	return 0, false
}
