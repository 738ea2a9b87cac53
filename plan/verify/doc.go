// Package verify checks a timetable against the plan it was made for. It is the
// second opinion: it shares no code with whatever made the timetable, and looks
// at plain minutes and its own oven curve instead of deriving anything cleverly.
//
// # Rules
//
// Each rule is one short function and yields breaks of the kind it is named for:
//
//	slots.go      start before end, on whole minutes, as long as the step may be
//	order.go      least and greatest gaps, at once, keeps, ready by the serve
//	courses.go    not before asked, not before the guests are through, not too late
//	chores.go     after their course, and not too early
//	hands.go      the right cook, there all the time, at one thing at a time
//	table.go      who sits stays at table, but for what a course lets slip away
//	touches.go    each start, end, reminder and setting that needs a hand has one, and no other
//	ovens.go      the right oven, at a temperature that suits, with room enough
//	kept.go       cold places, warm keeps, shut doors, grills
//	counts.go     burners and minding, counted
//	tools.go      tools in use, vessels through gaps, washing
//
// # Minutes of a break
//
// Where a rule states a length or a time (order, gap, keep, liking, length,
// late, early, a misplaced touch, an absence from table, washing, a door that is
// shut), Minutes says how far past that value the timetable is; for a late course
// that value is the asked time plus what is tolerated. Where a rule says what fits
// (hands, minding, oven, space, burner, tool, cold), Minutes says how long it does
// not. Both are rounded up. Of a touch that is missing or too many it is 0.
//
// # The past
//
// Moments before since are facts. Rules of what fits are judged for whole
// minutes from since on; rules between two moments unless both are facts: the
// end of a step that is done, the start of one that is begun or done, a serve
// before since. Skipped steps need nothing, and the gaps and keeps of a link to or
// from one hold; but what follows one follows those that it follows.
package verify
