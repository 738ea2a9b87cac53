// Package plan holds the dinner as values: what the cook wrote down (Plan) and
// when each thing is to happen (Timetable). It knows no file, no screen, no
// clock and no way of finding a timetable; it imports the standard library only.
//
// # Flow
//
//	YAML file ─ planfile ─▶ Plan ─ planner ─▶ Timetable ─ session ─▶ run.State ─▶ screen
//	                                 ▲   (solve)            (journal folded)
//	                              verify (checks every timetable, shares no code with solve)
//
// # Words
//
// Code speaks the field's language, the screen speaks the kitchen's:
//
//	in code                         on screen              meaning
//	step (an activity)              step                   one piece of work or waiting, never interrupted
//	Length: uncertain, elastic      takes, waits           the food decides; the cook decides
//	Link: least and greatest lag    gap, keeps             time allowed between two steps
//	renewable resource              oven, burner, tool     what a step occupies from start to end
//	Hands                           tied, busy, near       what a step asks of a cook
//	Touch                           -                      the minute in which somebody puts in, takes out, sets
//	changeover                      oven ready at          what lies between two oven temperatures
//	Window (calendar)               free                   when a cook is there
//	due date, tardiness             serve, late            when a course is on the table; by how much it misses
//	slack (total float)             may start late         how late a step may start with every serve unmoved
//	Break                           what is broken         a rule of the plan that a timetable does not keep
//
// # Units
//
// Lengths are time.Duration, instants are time.Time with the monotonic reading
// stripped, temperatures are Celsius, oven space is counted in half shelves.
// A timetable moves in whole minutes: every length is rounded up (Minutes).
//
// References between values are indices into the Plan's slices, -1 for none.
package plan
