package safety

import (
	"slices"

	"example.org/kettledrum/plan"
)

// heats reports whether a step is on the heat: in the oven, on a burner or, by its
// words, on something that the plan does not count.
func heats(s *plan.Step) bool {
	switch {
	case s.Oven != nil || s.Burner != nil:
		return true
	case s.Length.Elastic:
		return false
	case s.Until.HasTemp && s.Until.Temp >= warmest:
		return true
	}
	words := tokenise(s.Do)
	if len(words) > 1 && slices.Contains(manners, words[0]) {
		words = words[1:]
	}
	return len(words) > 0 && slices.Contains(cookVerbs, words[0]) || says(s.Do, "microwave", "slow cooker", "pressure cooker", "rice cooker", "sous vide", "air fryer", "barbecue")
}

// warmest is the warmest that food gets off the heat. Common practice.
const warmest plan.Celsius = 45

var (
	// cookVerbs begin a step that cooks.
	cookVerbs = []string{"boil", "simmer", "fry", "saute", "roast", "bake", "poach", "steam", "braise", "stew", "grill", "barbecue", "sear", "brown", "reheat", "cook", "griddle", "bbq", "blanch"}
	manners   = []string{"deep", "pan", "stir", "slow", "slowly", "gently", "briefly", "quickly", "hard", "soft"}
)

// inCold says in which cold place a step stands: where the plan names none, its
// words may.
func inCold(s *plan.Step) string {
	switch {
	case s.Cold != "":
		return s.Cold
	case heats(s) || !s.Length.Elastic:
		return ""
	case says(s.Do, "freeze", "freezer"):
		return "freezer"
	case says(s.Do, "chill", "refrigerate", "fridge", "refrigerator", "ice", "ice bath", "cold water"):
		return "fridge"
	}
	return ""
}
