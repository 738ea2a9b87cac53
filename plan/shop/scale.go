package shop

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/measure"
	"example.org/kettledrum/plan/safety"
)

// Scaling. All of it is common practice but the two exponents: the time of a roast
// of the same shape grows with its mass to the power of about 0.55, at most ⅔, which
// is conduction into a solid computed for roasts of four to eight centimetres.
const (
	slightly   = 0.1 // a change that small needs no word
	spiceTimes = 3   // from here on salt and strong spice begin with less
	spiceShare = 0.75
	roastPower = 0.55
	solidPower = 2. / 3
)

// notes says what does not scale with the guests, a dish at a time, and which dishes
// are not scaled at all.
func notes(p *plan.Plan, needs []need) []Note {
	var out []Note
	var unsaid []string
	for d := range p.Dishes {
		dish := &p.Dishes[d]
		var own []need
		for _, n := range needs {
			if n.dish == d {
				own = append(own, n)
			}
		}
		if len(own) == 0 {
			continue
		}
		if dish.Makes == 0 || p.Guests == 0 {
			unsaid = append(unsaid, dish.Name)
			continue
		}
		times := Times(p, d)
		if math.Abs(times-1) < slightly {
			continue
		}
		add := func(format string, args ...any) {
			out = append(out, Note{dish.Name, fmt.Sprintf(format, args...)})
		}
		add("written for %d, bought for %d: × %s", dish.Makes, p.Guests, measure.Number(times))
		seasoning(own, times, add)
		heat(p, dish, own, times, add)
		oven(p, d, add)
	}
	switch {
	case p.Guests == 0:
		out = append(out, Note{"", "amounts are as written, for the plan does not say how many `guests` there are"})
	case len(unsaid) > 0:
		out = append(out, Note{"", "amounts are as written, for these dishes do not say how many they are for (`makes`): " + strings.Join(unsaid, ", ")})
	}
	return out
}

// seasoning says what of the ingredients wants another measure than the rest.
func seasoning(own []need, times float64, add func(string, ...any)) {
	var salty, rising, fat []string
	for _, n := range own {
		words := " " + n.key + " "
		has := func(list ...string) bool {
			for _, w := range list {
				if strings.Contains(words, " "+w+" ") {
					return true
				}
			}
			return false
		}
		switch {
		case n.of.Fixed:
		case forFrying(n.Line) && !n.Amount.None():
			fat = append(fat, n.Item)
		case n.Amount.None() || n.Amount.Lo == 0:
		case has("salt", "pepper", "cayenne", "chilli", "chili", "clove", "nutmeg", "cinnamon", "cumin", "saffron", "allspice", "cardamom", "soy sauce", "fish sauce") && n.Amount.Pack == "":
			salty = append(salty, n.Item)
		case has("yeast", "baking powder", "baking soda", "bicarbonate", "gelatine", "gelatin"):
			rising = append(rising, n.Item)
		}
	}
	if len(salty) > 0 {
		if times >= spiceTimes {
			add("%s: the list has %s times as much; begin with about %.0f %% of that, and taste", strings.Join(salty, ", "), measure.Number(times), 100*spiceShare)
		} else {
			add("%s: season by taste, not by the number", strings.Join(salty, ", "))
		}
	}
	if len(rising) > 0 {
		add("%s: right in proportion only at the same depth; measure it closely", strings.Join(rising, ", "))
	}
	if len(fat) > 0 {
		add("%s for frying: not scaled, for it is the pan that decides how much", strings.Join(fat, ", "))
	}
}

// heat says what becomes of oven time, pans and pots.
func heat(p *plan.Plan, dish *plan.Dish, own []need, times float64, add func(string, ...any)) {
	bakes, vessels := false, map[string]bool{}
	var pots []string
	for _, i := range dish.Steps {
		s := &p.Steps[i]
		bakes = bakes || s.Oven != nil && !s.Oven.Grill
		if s.Vessel != nil {
			if name := p.Kitchen.Tools[s.Vessel.Tool].Name; !vessels[name] {
				vessels[name] = true
				pots = append(pots, name)
			}
		}
	}
	if bakes {
		if piece, ok := onePiece(own); ok {
			bound := "most"
			if times < 1 {
				bound = "least"
			}
			add("oven time: one %s of %s times the weight takes about %.2g times as long, at %s %.2g; as several pieces no longer than one of them; the thermometer decides",
				strings.TrimPrefix(ingredient.Name(piece), "frozen "), measure.Number(times), math.Pow(times, roastPower), bound, math.Pow(times, solidPower))
		} else {
			add("oven time: the same in a pan of %s times the area and the same depth, which is %.2g times as wide each way; deeper takes longer",
				measure.Number(times), math.Sqrt(times))
		}
	}
	if len(pots) > 0 && times > 1 {
		add("%s: it must hold %s times as much, or cook a second batch", strings.Join(pots, ", "), measure.Number(times))
	}
}

// oven says what room the larger amount of a dish takes in the oven.
func oven(p *plan.Plan, dish int, add func(string, ...any)) {
	for _, r := range rooms(p) {
		s := &p.Steps[r.step]
		switch {
		case s.Dish != dish:
		case len(r.batches) > 1:
			add("%s: %s at once, and the oven has %s: %d batches", s.Do, plan.SpellShelves(r.whole), plan.SpellShelves(r.batches[0]), len(r.batches))
		default:
			add("%s: %s instead of %s", s.Do, plan.SpellShelves(r.whole), plan.SpellShelves(s.Oven.Space))
		}
	}
}

var inPieces = regexp.MustCompile(`(?i)\b(cut|cubed|diced|minced|ground|chunks|strips|sliced|pieces|stewing|fillets|chops|steaks)\b`)

// onePiece returns the meat or fish that is roasted in one piece, as far as the lines
// tell: raw, a kilogram or more, and more than half of all that is weighed.
func onePiece(own []need) (string, bool) {
	heaviest, all := 0.0, 0.0
	var piece need
	for _, n := range own {
		g, ok := weight(n)
		if !ok {
			continue
		}
		g /= n.times
		all += g
		if g > heaviest {
			heaviest, piece = g, n
		}
	}
	if heaviest < 1000 || heaviest <= all/2 || inPieces.MatchString(piece.Text) {
		return "", false
	}
	if piece.Amount.Unit == nil && piece.Amount.Hi != 1 {
		return "", false // twelve of them
	}
	_, raw := safety.Raw(piece.Text)
	return piece.Item, raw
}
