//go:build unix

package main

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// A whole dinner on the emulated screen, from the first key to the last course: a
// rehearsal, so that the hours pass in seconds, and every view on the way.
func TestDinnerFromFirstKeyToLastCourse(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), "rehearse", "--speed", "3600", filepath.Join("..", "..", "examples", "weeknight.yaml"))

	first := s.await(`(\d\d:\d\d) +Trout on a T.*table in`)[1]
	if first >= "19:00" {
		t.Errorf("the rehearsal begins at %s, after the table", first)
	}
	s.await(`NOW +Set the oven to 400 °F`)
	s.await(`space set .*\? help`)
	s.insist(" ", `OVEN.*400 °F, now`)

	// What is done on the main screen is done in every view.
	s.press("v")
	s.await(`Courses .*◆Dinner`)
	s.await(`oven .*▇`)
	s.await(`large 1 .*Boil`)
	s.await(`WHEN +\d\d:\d\d to`)
	s.press("f")
	s.await(`[█▀▄]{3}`)
	s.await(`(since|until) \d\d:\d\d`)
	s.press("?")
	s.await(`Keys +lines 1 to`)
	s.press("\x1b") // Esc
	s.await(`[█▀▄]{3}`)
	s.press("y")
	s.await(`\d+ of \d+ done`)
	s.press("/")
	s.await(`Find a step`)
	s.press("butter a dish")
	s.await(`› .*Butter a dish`)
	s.press("\r")
	s.await(`THEN +Bake the trout`)
	s.insist("\x1b", `COURSES.*Dinner`) // back through all of them

	s.insist(" ", `GOING.*Boil the potatoes`)
	s.await(`BURNERS +large: Potatoes`)
	s.press("+")
	s.await(`potatoes[^\n]*: 5 min more`)
	s.press("u")
	s.await(`taken back`)
	s.press("g")
	s.await(`What was told`)
	s.await(`5 min more, taken`)
	s.press("g")
	s.insist(" ", `GOING.*Bake the trout|Bake the trout.*oven`)

	// Space alone brings it to the table.
	s.insist(" ", `Every course is on the table`)
	end := s.await(`COURSES +served +(\d\d:\d\d) +Dinner +✓`)[1]
	if end < "18:55" || end > "19:20" {
		t.Errorf("the dinner was served at %s, want about 19:00", end)
	}
	s.press("q")
	if got := s.exit(); got != exitFine {
		t.Errorf("exit code %d, want %d", got, exitFine)
	}
	if text := s.screen.String(); strings.Contains(text, "COURSES") || s.screen.IsAltScreen() {
		t.Errorf("the screen is not given back:\n%s", text)
	}
}

// Nothing that a size of the terminal does ends the screen.
func TestResizeAtAnyMoment(t *testing.T) {
	t.Parallel()
	s := start(t, t.TempDir(), "rehearse", "--from", "17:00")
	s.await(`Harvest supper +rehearsal`)
	s.resize(40, 10)
	s.await(`the screen needs 60 by|needs 60`)
	s.resize(60, 18)
	s.await(`COURSES.*Starter`)
	s.press("v")
	s.await(`Courses .*◆`)
	s.resize(150, 50)
	if got := s.await(`▼(\d\d:\d\d)`)[1]; !regexp.MustCompile(`^1[67]:`).MatchString(got) {
		t.Errorf("the hours show %s as now", got)
	}
	s.press("q")
	if got := s.exit(); got != exitFine {
		t.Errorf("exit code %d, want %d", got, exitFine)
	}
}
