// Package session runs one dinner: it glues together the journal, the fold of
// what happened (package run) and whatever finds timetables. It is handed all of
// them, and the clock; it knows no file, no screen and no solver.
//
//	Record ─▶ Apply refuses? ─▶ append, sync ─▶ Apply ─▶ project ─▶ verify ─▶ still holds? ── yes ─▶ State
//	                                                                            └─ no ─▶ Again ─▶ adopt ─▶ State
//
// # Write, then show
//
// An event is in the journal, and safe, before any State has it. An event that
// contradicts what is known is refused and not written. When the journal cannot
// be written, the state stays at what was.
//
// # When another timetable is adopted
//
// After each event the run is projected: everything that is
// still to come as soon as it is due and possible, in the order of the timetable
// in force. The timetable moved to those times is verified.
//
//  1. Nothing new is broken, no course comes later than planned, nothing is kept
//     much longer than it likes, and there is no lateness that what was just told
//     could have made up for: nothing is written. The screen shows the projection,
//     the timetable stays.
//  2. Else the rest is solved again, with the past fixed. The answer is adopted
//     if it mends a break or gains more than it moves.
//  3. Else, if a course comes later than planned, the projection itself is
//     adopted, so that the timetable tells the truth.
//  4. Else the timetable stays, and what the projection breaks is shown.
//
// Where what was told changed the plan (a burner that works again, a remedy), rule 1
// does not apply: the plan may allow what it did not.
//
// # Mends a break, or gains more than it moves
//
// Breaks are of three classes, the worst first: food that is spoilt, raw or unsafe;
// work that cannot be done as written; guests who wait. An answer with a minute
// more in a class than the projection is refused, unless it mends a worse class.
// It mends a class that it leaves without a break, or, of the first two, with
// WorthMoving minutes fewer. Else it must gain more than it moves (worth.go):
//
//	cost  = Σ over courses to come (minutes late + 2 · minutes past late_ok)
//	      + Σ minutes over likings
//	gain  = cost(projection) − cost(answer)
//	moves = Σ over steps ahead (minutes by which the start moves, and 5 for another
//	        cook, oven or burner) · ¼ · 2^(−minutes ahead / 10)
//
//	gain ≥ WorthMoving  and  gain > moves(answer) − moves(projection)
//
// both measured against the timetable in force, a step as far ahead as the earlier
// of its two starts. So four steps of this minute may move by eight minutes each for
// a course nine minutes sooner, and what comes in an hour moves almost for
// nothing. Both parts have a threshold, and the first is refused any harm: so of
// two answers adopted one after the other each mends or gains at least that much,
// and none takes back, for less, what the other did.
//
// Broken counts from what the timetable in force does not already break. A break
// of no more than Tolerance does not count, nor does a touch: a minute's touch is
// done a minute sooner or later. A step that nobody has told of is not planned
// around: run.Project takes it to go as planned. The same projection is looked at once, for as long as everything
// goes as projected another search would find no more; one that breaks a rule is
// worth another try at the first event of another minute.
//
// Time alone adopts nothing. What drifts while nobody tells anything is what
// nobody has answered, and after run.UnconfirmedAfter it is assumed to have gone
// as planned. A timetable adopted meanwhile would have the drift in its plan:
// what is then confirmed as planned would be written down at times at which it
// did not happen, and the courses would come late though nobody was.
//
// Every timetable is verified before it is adopted, and says what it breaks.
//
// # Remedies
//
// Where a course will be late all the same, Remedies works out what may be given up
// (package remedy), beside everything else. Take writes one as a single event and
// adopts what it promised because of it, so that undoing the event undoes both.
package session
