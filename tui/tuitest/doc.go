// Package tuitest drives the screen without a terminal: it types keys, turns
// the clock by hand and reads the frame. It also has a small dinner with a
// timetable made by hand, so that screens do not change with the planner, and a
// writer of pictures.
package tuitest
