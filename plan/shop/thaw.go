package shop

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
	"example.org/kettledrum/plan/safety"
)

var (
	thawing    = regexp.MustCompile(`(?i)\b(thaw|defrost)`)
	frozenWord = regexp.MustCompile(`(?i)\bfrozen\b ?`)
)

// thaws lists what must leave the freezer before its step: what the plan says is
// frozen, and meat and fish whose line says so. Frozen peas go into the pot as they
// are.
func thaws(p *plan.Plan, needs []need) []Thaw {
	var out []Thaw
	for _, n := range needs {
		takes, how := n.thaws(p)
		if how == "" {
			continue
		}
		name := strings.TrimSpace(frozenWord.ReplaceAllString(n.Item, ""))
		out = append(out, Thaw{Name: name, Dish: p.Dishes[n.dish].Name, Out: n.at.Add(-takes), Needed: n.at,
			Takes: int(takes / time.Hour), Text: how, Source: "USDA FSIS, The Big Thaw"})
	}
	slices.SortStableFunc(out, func(a, b Thaw) int { return a.Out.Compare(b.Out) })
	return out
}

// thaws returns how long before its step it must leave the freezer, and how that
// comes; nothing where it need not thaw, no time where the step itself thaws it.
func (n need) thaws(p *plan.Plan) (takes time.Duration, how string) {
	if _, raw := safety.Raw(n.Text); !n.Frozen || !raw && !n.of.Frozen {
		return 0, ""
	}
	if s := &p.Steps[n.step]; thawing.MatchString(s.Do) {
		return 0, "the plan has a step for it: " + s.Do
	}
	grams, weighed := weight(n)
	takes = safety.ThawFridge(grams / measure.Named("pound").Size)
	if !weighed {
		return takes, "1 day in the refrigerator at least: a day for each 4 lb (1.8 kg), so weigh it"
	}
	return takes, days(takes) + " in the refrigerator at most"
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
