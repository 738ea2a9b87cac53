// Package remedy finds ways out when a course will be late, or something about to
// break: what might be given up, and what that buys. It knows no clock, no screen
// and no solver; whatever finds timetables is handed in, and does all the work.
//
//	State, what comes as it is ─ candidates ─▶ []plan.Change ─ State.Apply ─ Again ─ Verify ─▶ outcome
//	                                  gain, price ─ none dominated ─ ranked ─▶ at most Most remedies
//
// # What is tried
//
// One thing each (candidates.go): serve later by the least that works; leave out
// what is optional; another cook for a step; food that waits longer than liked;
// leave the table; another oven or vessel, a small burner in place of a large one,
// for as long again; the top of what a bake accepts. Each is a plan.Change, applied
// to the run and planned again: what its line says is what that timetable has.
//
// Shelves and burners of one size are all alike: whichever is free is taken, and that
// is no remedy. Nor is how much room a thing takes in an oven: a tin does not shrink.
//
// # What is never tried
//
// Limits are not touched: what keeps in a fridge, a freezer or an oven, how long a
// wait may last, a stated gap, what a liking may be at most; and no liking is
// stretched beyond two hours, whatever the plan says (the two-hour rule). A remedy
// that makes food wait, or bake, against one of these more than it does as it is,
// is dropped however much it saves.
//
// # Gain and price
//
// Both in minutes late (rank.go):
//
//	gain  = Σ minutes by which courses come sooner + minutes less over likings
//	      + 2 · minutes less past a tolerance
//	      + 3 · minutes less of work that cannot be done as written
//	      + 5 · minutes less of food against a limit
//	price = what the thing itself is (a table) + Σ minutes by which courses come later
//	      + minutes more over likings + minutes away from the table
//
// Against what comes as it is, or, where plain planning again would do better,
// against that: a remedy is not praised for what needs none. One that gains less
// than Worth is not offered, nor one that another beats: as much gain for less, or
// more for as much. The rest are ranked by gain less price. The weights are common
// practice of nobody: they are chosen so that the order is the one a host would
// choose, and stand in one table.
//
// The same question has the same answer: the number of plannings is bounded
// (Tries), what they cost is bounded by whoever plans, and no clock is asked.
package remedy
