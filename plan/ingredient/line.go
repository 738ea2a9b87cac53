package ingredient

import "example.org/kettledrum/plan/measure"

// Line is one line of a recipe's ingredients, taken apart. No word is lost: each
// word of Text is in the Text of Amount, Each or one of Also, in Item or in Note.
type Line struct {
	Text string // as written, runs of blanks made one
	// Heading: the line names a part of the recipe ("For the sauce:"), which is
	// its Item, and is nothing to buy.
	Heading bool
	// Amount is how much; without Amount.Text the line does not say.
	Amount Amount
	// Each is the size of one of Amount: "1 (14 oz) can", "2 x 400 g tins".
	Each Amount
	// Also is Each, or where there is none Amount, said again in other units: "8 oz
	// (225 g)", "4 chicken thighs (about 2 lb)".
	Also []Amount
	// Item is what it is: "waxy potatoes". Empty only where Text is.
	Item string
	// Note is what the line says beside: "peeled", "to taste", "plus more for dusting".
	Note string
	// Optional, ToTaste, Frozen and More (for dusting, for the pan: an amount that is
	// not said) are what the words of the line tell.
	Optional, ToTaste, Frozen, More bool
	// PerPerson: the amount is for one guest.
	PerPerson bool
}

// Amount is how much of something.
type Amount struct {
	Text string // as written, "about 2½ lb", "a pinch of"; empty for none
	// Lo and Hi are the number, equal where it is no range; 0 where Text names none
	// ("some").
	Lo, Hi float64
	// Unit is a unit of measure; nil of things that are counted.
	Unit *measure.Unit
	// Pack is what is counted where that is not the item itself: "clove", "can",
	// "bunch", in the singular.
	Pack string
	// About: the cook wrote that it is not exact.
	About bool
}

// None reports whether the line says no amount.
func (a Amount) None() bool { return a.Text == "" }
