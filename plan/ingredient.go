package plan

import "time"

// Ingredient is one line of what a dish takes. Package plan/ingredient reads it.
type Ingredient struct {
	// Text is the line as the cook wrote it; of the structured form its parts, put
	// together as a line.
	Text string
	// Amount, What and Note are the parts of the structured form. What is empty
	// where the cook wrote a line.
	Amount, What, Note string
	// Step is the step that takes it, an index into Plan.Steps, -1 for the first of
	// the dish.
	Step int
	// Frozen: it comes frozen and must thaw before Step.
	Frozen bool
	// Fresh is how long before Step it may be bought at the earliest; 0: as the kind
	// of food has it.
	Fresh time.Duration
	// Fixed: the same amount for any number of guests.
	Fixed bool
	Pos   Pos
}
