// Package kept says what becomes of what a step made until another takes it, by a
// plan and a timetable: where it lies, when it is taken, whether it is hot. It
// moves nothing, and knows no run and no clock.
//
// Reading order: places.go, hot.go.
package kept
