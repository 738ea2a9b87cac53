// Package debrief looks back at a dinner that was cooked or rehearsed: what was late
// and why, when hands were fewest, which hot food waited longest, who stood idle.
// All of it is read off the plan, the timetable that the dinner began with and the
// one as it truly was. Ideas says what could be tried to be less late; whether it
// helps is for whoever plays the dinner again (package rehearse).
//
// It knows no run, no session, no solver, no clock and no screen.
//
// Reading order: debrief.go, late.go, hands.go, wait.go, ideas.go, words.go.
package debrief
