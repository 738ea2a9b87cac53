// Package run follows one dinner while it is cooked (or rehearsed). It knows no
// clock, no file and no screen: everything is a pure function of its arguments.
//
// # Flow
//
//	plan + events ─ Fold, Apply ─▶ State ─ Conduct(now) ─▶ Moment: cues, timers, ovens, courses
//	                                 └──── Project(now) ─▶ Projection: when things will happen
//
// # From facts to a projection
//
// The timetable in force fixes in which order steps use each cook, oven, burner
// and tool (order.go). With that order, everything that must come before
// something else is a difference constraint between time points (package
// network). Facts fix points; what is left gets its earliest time, but not
// before it is planned (project.go).
//
// A point that is due and that nobody has answered drifts: it is projected to
// the next full minute. After UnconfirmedAfter it is assumed to have gone as
// planned, and holds nothing up any longer. What follows at once starts with the
// end before it, without a word from anybody, in the fold.
//
// # What the plan says from then on
//
// Some events change the plan: guests who are late, a burner that failed, a cook
// who is away, a remedy. Each is a plan.Change, and State.Plan is the plan as it
// stands (change.go), so that projection, planner and verifier need not know of
// any. The timetable in force is fitted to it (fitted.go) as far as that needs no
// search: a course comes no earlier than it is held, a step is with the cook and in
// the place that it was given, what begins again does not do so in the past, what a
// cook who left was to do is for those who are there, one after the other. All
// else is for the next timetable; until then it is a break and named.
//
// What nobody can say yet (held until released, everybody away until back, a step
// that is paused) has a time only as of an instant: State.At.
//
// What a cook who is away was at stands still meanwhile and ends later by as long
// (still.go). What they are to begin waits for them, and all that somebody is to
// tell of waits while nobody is there (absent.go).
//
// # What a serve settles
//
// Serving a course tells of its dishes that they are done or left out. Of its
// chores it tells less: what was to be done by then is taken to be, for nobody
// serves on a bare table; anything else stays, and goes on being offered. A
// reminder needs no confirming: unanswered, it is dropped with its moment.
//
// # What a thermometer tells
//
// A reading moves the expected end of its step to where package heat sees it, and rings at
// the early side of that. What is done, or taken to be, and was not read or is not as hot
// as package safety says, is asked about: until that is answered, or a reading answers it.
//
// # Reading order
//
// event.go, state.go, moment.go (the types); check.go, possible.go, fold.go, apply.go, change.go,
// fitted.go; order.go, resource.go, claim.go, oven.go, project.go, absent.go, still.go, slack.go;
// conduct.go, cue.go, remind.go, reading.go, thermometer.go, breaks.go, misset.go, curve.go, words.go.
package run
