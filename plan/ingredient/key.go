package ingredient

import "strings"

// plainly are the words that do not tell two things apart when they are bought: how
// big, and what the cook does to them.
var plainly = set(`large medium small big extra-large jumbo medium-sized small-sized large-sized chopped sliced diced grated shredded peeled
	unpeeled crumbled crushed halved quartered cubed softened melted sifted packed finely coarsely roughly thinly thickly freshly lightly
	loosely tightly beaten ripe organic free-range trimmed rinsed drained washed scrubbed cold very a an the of and good best some
	lukewarm warm hot ice-cold thawed torn picked pitted hulled boiling`)

// Name is an item by which it is looked up: lower case, in the singular.
func Name(item string) string {
	words := strings.Fields(strings.ToLower(strings.NewReplacer(",", " ", "(", " ", ")", " ", "’", "'").Replace(item)))
	if n := len(words) - 1; n >= 0 {
		words[n] = singular(words[n])
	}
	return strings.Join(words, " ")
}

// Key is an item as it is bought, the same for "2 large onions, diced" and "1
// onion". Different names stay different: red onions are no onions.
func Key(item string) string {
	words := strings.Fields(Name(item))
	var kept []string
	for _, w := range words {
		if !plainly[w] {
			kept = append(kept, w)
		}
	}
	if len(kept) == 0 {
		return strings.Join(words, " ")
	}
	kept[len(kept)-1] = singular(kept[len(kept)-1])
	return strings.Join(kept, " ")
}

// singulars that no rule gives.
var singulars = map[string]string{
	"leaves": "leaf", "loaves": "loaf", "halves": "half", "potatoes": "potato", "tomatoes": "tomato", "mangoes": "mango",
	"molasses": "molasses", "brussels": "brussels", "couscous": "couscous", "swiss": "swiss", "schnapps": "schnapps", "geese": "goose",
	"cookies": "cookie", "brownies": "brownie", "anchovies": "anchovy", "pies": "pie", "smoothies": "smoothie",
}

// singular makes one of several.
func singular(w string) string {
	if s, ok := singulars[w]; ok {
		return s
	}
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && (strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "xes") || strings.HasSuffix(w, "sses")):
		return w[:len(w)-2]
	case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us") && !strings.HasSuffix(w, "is"):
		return w[:len(w)-1]
	}
	return w
}

// Plural makes several of what an item is one of: "large onion", "large onions".
func Plural(item string) string {
	head, last := "", item
	if i := strings.LastIndexByte(item, ' '); i >= 0 {
		head, last = item[:i+1], item[i+1:]
	}
	low := strings.ToLower(last)
	if singular(low) != low { // it is one already
		return item
	}
	for many, one := range singulars {
		if one == low {
			if many == one {
				return item
			}
			return head + last[:1] + many[1:]
		}
	}
	switch {
	case strings.HasSuffix(low, "s") && !strings.HasSuffix(low, "ss"):
		return item
	case len(low) > 1 && strings.HasSuffix(low, "y") && !strings.ContainsAny(low[len(low)-2:len(low)-1], "aeiou"):
		return head + last[:len(last)-1] + "ies"
	case strings.HasSuffix(low, "ch"), strings.HasSuffix(low, "sh"), strings.HasSuffix(low, "x"), strings.HasSuffix(low, "ss"):
		return item + "es"
	case low == "fish", low == "shrimp", low == "trout", low == "cod", low == "bread", low == "":
		return item
	}
	return item + "s"
}
