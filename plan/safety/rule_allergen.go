package safety

import (
	"fmt"
	"slices"
	"strings"

	"example.org/kettledrum/plan"
)

// wish is one entry of `avoid`.
type wish struct {
	text   string
	groups allergen
	// only is the one food that is meant where that is not all of its groups:
	// "hazelnuts", or a word in neither list.
	only   []string
	listed bool // in one of the lists
}

// wishes reads `avoid`.
func wishes(avoid []string) []wish {
	var out []wish
	for _, text := range avoid {
		w := wish{text: text}
		for _, h := range avoidWords.find(text) {
			w.groups |= h.value
		}
		if w.groups == 0 {
			w.only = tokenise(text)
			for _, h := range allergenWords.find(text) {
				w.groups |= h.value.has
			}
		}
		w.listed = w.groups != 0
		out = append(out, w)
	}
	return out
}

// finding is what a text has of a wish.
type finding struct {
	word string
	sure bool
}

// in looks for what a wish names in a text, surest first.
func (w wish) in(text string) (finding, bool) {
	best, found := finding{}, false
	free := w.freeOf(text)
	note := func(word string, sure bool) {
		sure = sure && !free
		if !found || sure && !best.sure {
			best, found = finding{word, sure}, true
		}
	}
	if len(w.only) > 0 && says(text, singularOf(w.only)) {
		note(w.text, true)
	}
	for _, h := range allergenWords.find(text) {
		switch {
		case len(w.only) == 0 && h.value.has&w.groups != 0:
			note(h.text, true)
		case h.value.may&w.groups != 0, len(w.only) > 0 && h.value.has&w.groups != 0 && vague(h.text):
			note(h.text, false)
		}
	}
	return best, found
}

// vague is a word for many foods of one group.
func vague(word string) bool {
	return slices.Contains([]string{"nut", "nuts", "mixed nuts", "chopped nuts", "nut mix", "fish", "shellfish", "cheese", "nut butter", "nut milk", "nut oil", "tree nuts", "flour"}, word)
}

// singularOf writes words in the singular as far as that can be told.
func singularOf(words []string) string {
	out := slices.Clone(words)
	if s := singulars(out[len(out)-1]); len(s) > 1 {
		out[len(out)-1] = s[len(s)-1]
	}
	return strings.Join(out, " ")
}

// freeOf reports whether a text says that what it names is without: "gluten-free
// soy sauce". The label decides then.
func (w wish) freeOf(text string) bool {
	tokens := tokenise(text)
	for i, t := range tokens {
		if t == "vegan" && w.groups&(milk|eggs|fishes|crustaceans|molluscs) != 0 {
			return true
		}
		without := ""
		switch {
		case (t == "free" || t == "less") && i > 0:
			without = tokens[i-1]
		case (t == "without" || t == "no") && i+1 < len(tokens):
			without = tokens[i+1]
		}
		if without == "" {
			continue
		}
		if slices.Contains(w.only, without) || slices.ContainsFunc(avoidWords.find(without), func(h hit[allergen]) bool { return h.value&w.groups != 0 }) {
			return true
		}
	}
	return false
}

// allergens looks for what the plan says must not be in any dish. What it does not
// find proves nothing.
func (f *finder) allergens() {
	all := wishes(f.p.Avoid)
	if len(all) == 0 {
		return
	}
	var silent []string
	firstSilent := -1
	f.dishes(func(d *plan.Dish, steps []int) {
		if len(d.Ingredients) == 0 {
			silent = append(silent, d.Name)
			if firstSilent < 0 {
				firstSilent = steps[0]
			}
		}
		for _, w := range all {
			f.allergen(d, steps, w)
		}
	})
	if firstSilent >= 0 {
		f.add("no-ingredients", firstSilent, fmt.Sprintf("no ingredients are written for %s: what is in %s cannot be told", listed(silent), map[bool]string{true: "it", false: "them"}[len(silent) == 1]),
			"write `ingredients`, or ask whoever knows what goes in")
	}
	for _, w := range all {
		if !w.listed && len(f.p.Steps) > 0 {
			f.add("avoid-word", f.first(), fmt.Sprintf("%q is looked for as a word only", w.text), "name it as one of the lists does, or look through the labels for it")
		}
	}
}

// first is the first step of a dish in the timetable.
func (f *finder) first() int {
	for _, i := range f.order {
		if !f.chore(i) {
			return i
		}
	}
	return f.order[0]
}

// allergen looks for one wish in one dish: in its ingredients, its steps and its
// name. It tells everything that has it for sure, and everything to ask about; a
// step or the name only where its word is not among those already.
func (f *finder) allergen(d *plan.Dish, steps []int, w wish) {
	type place struct {
		text, where string
		step        int
	}
	var places []place
	for _, line := range d.Ingredients {
		at := steps[0]
		if line.Step >= 0 && !f.skipped(line.Step) {
			at = line.Step
		}
		places = append(places, place{line.Text, "ingredient", at})
	}
	for _, i := range steps {
		places = append(places, place{f.p.Steps[i].Do, "step", i})
	}
	places = append(places, place{d.Name, "name", steps[0]})
	var sure, ask []string
	sureAt, askAt, seen := -1, -1, map[string]bool{}
	for _, p := range places {
		x, ok := w.in(p.text)
		if !ok || p.where != "ingredient" && (seen[x.word] || len(sure) > 0) {
			continue
		}
		seen[x.word] = true
		text := fmt.Sprintf("%s (%s %q)", x.word, p.where, p.text)
		if x.sure {
			sure = append(sure, text)
			if sureAt < 0 {
				sureAt = p.step
			}
		} else {
			ask = append(ask, text)
			if askAt < 0 {
				askAt = p.step
			}
		}
	}
	if len(sure) > 0 {
		f.add("allergen", sureAt, fmt.Sprintf("contains %s: %s", w.text, strings.Join(sure, ", ")), "leave it out or take something else, and mind what touches it")
	}
	if len(ask) > 0 {
		f.add("may-contain", askAt, fmt.Sprintf("may contain %s: ask about %s", w.text, strings.Join(ask, ", ")), "read the label or ask, each time anew")
	}
}

// listed writes names in a row, at most a handful.
func listed(names []string) string {
	const most = 5
	if len(names) > most {
		return strings.Join(names[:most], ", ") + fmt.Sprintf(" and %d more", len(names)-most)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}
