package plan

// Harm is how bad it is that a rule is broken, the worst first.
type Harm int

// Classes of broken rules.
const (
	HarmFood   Harm = iota // spoilt, raw or unsafe
	HarmWork               // cannot be done as written
	HarmGuests             // guests wait longer than they should
	Harms                  // how many classes there are
)

// PastTolerance is how often a minute past a course's tolerance counts, beside being
// a minute late.
const PastTolerance = 2

// Weight is what a minute of the harm counts, in minutes late.
func (h Harm) Weight() int { return [Harms]int{HarmFood: 5, HarmWork: 3, HarmGuests: PastTolerance}[h] }

// Harm returns what breaking the rule does.
func (k BreakKind) Harm() Harm {
	switch k {
	case BreakKeep, BreakLength, BreakOven:
		return HarmFood
	case BreakLate, BreakEarly:
		return HarmGuests
	}
	return HarmWork
}
