// Package planner turns a plan, and what is known of its run, into a problem
// for package solve, and the answer back into a timetable.
//
//	Plan, State ─ canonical order ─ translate ─▶ solve.Problem ─ solve ─▶ solve.Result
//	            ─ read ─▶ Timetable ─ verify ─▶ breaks, status ─ the file's order ─▶ Timetable
//
// One tick is a minute; tick 0 is midnight at the start of the cook-day. The
// timetable's breaks are what the independent verifier finds, never what the
// engine claims.
//
// The order in which the file has its dishes and chores changes nothing: all is
// done on the plan in an order of its own (canonical.go), and the timetable put
// into the file's at the end.
//
// Who touches is settled last (touches.go), of those who are free: it is all the
// same to the engine. So are the reminders of a wait beyond its least length: the
// engine does not keep a wait short because at its end nobody is there for them.
//
// What lies in which objective level:
//
//	broken  limits, tolerances, gaps, free windows
//	0       minutes late plus minutes over likings
//	1       minutes over five that hot food waits, rested and plated food too
//	2       planning again: minutes by which steps are moved
//	        oven settings
//	        the first start of the day late
//	        calls spread over spans of ten minutes
//	        everything as late as it may
package planner
