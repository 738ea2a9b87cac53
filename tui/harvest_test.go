package tui_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"

	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

var replan = flag.Bool("replan", false, "make the timetable of the harvest screens anew")

const harvestTimetable = "testdata/harvest-timetable.json"

// harvest returns the moments of the built-in dinner, and the screen of each.
func harvest(t testing.TB) (stages []tuitest.Stage, show func(tuitest.Stage, tuitest.Config) *tuitest.Screen) {
	t.Helper()
	p, table, err := tuitest.Harvest(harvestTimetable)
	if err != nil {
		t.Fatal(err)
	}
	stages, err = tuitest.HarvestStages(p, table)
	if err != nil {
		t.Fatal(err)
	}
	return stages, func(st tuitest.Stage, c tuitest.Config) *tuitest.Screen {
		state, err := run.Fold(p, st.Events)
		if err != nil {
			t.Fatal(err)
		}
		c.Now = st.Now
		return tuitest.NewOf(t, c, state)
	}
}

// everySize are the moments that are kept at every size and in every look.
var everySize = map[string]bool{"rush": true, "running-long": true, "oven-change": true}

// TestHarvestScreens keeps the screens of the built-in dinner.
func TestHarvestScreens(t *testing.T) {
	if *replan {
		remake(t)
	}
	t.Parallel()
	stages, show := harvest(t)
	if len(stages) != 8 {
		t.Errorf("%d moments, want 8", len(stages))
	}
	for _, st := range stages {
		sizes := [][2]int{{80, 24}}
		if everySize[st.Name] {
			sizes = append(sizes, [][2]int{{60, 18}, {120, 40}, {200, 60}}...)
		}
		for _, size := range sizes {
			name := fmt.Sprintf("harvest-%s-%dx%d", st.Name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				golden(t, name, show(st, tuitest.Config{Width: size[0], Height: size[1]}).Frame())
			})
		}
		if !everySize[st.Name] {
			continue
		}
		t.Run(st.Name+"-ascii", func(t *testing.T) {
			t.Parallel()
			golden(t, "harvest-"+st.Name+"-ascii", show(st, tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(true)}).Frame())
		})
		for look, ascii := range map[string]bool{"lanes": false, "lanes-ascii": true} {
			t.Run(st.Name+"-"+look, func(t *testing.T) {
				t.Parallel()
				s := show(st, tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(ascii)})
				s.Keys("v")
				golden(t, "harvest-"+st.Name+"-"+look, s.Frame())
			})
		}
		t.Run(st.Name+"-colour", func(t *testing.T) {
			t.Parallel()
			s := show(st, tuitest.Config{Width: 80, Height: 24, Theme: theme.New(termenv.TrueColor, true, false)})
			plain := show(st, tuitest.Config{Width: 80, Height: 24})
			frame := tui.View(s.Model)
			golden(t, "harvest-"+st.Name+"-colour", fmt.Sprintf("%q\n", frame))
			// Colour says nothing that the plain screen does not.
			if got, want := ansi.Strip(frame), tui.View(plain.Model); got != want {
				t.Errorf("without its colours the screen reads\n%s\nand the plain one\n%s", got, want)
			}
		})
	}
}

func remake(t *testing.T) {
	t.Helper()
	p, _, err := tuitest.Harvest(harvestTimetable)
	if p == nil {
		t.Fatal(err)
	}
	data, err := json.MarshalIndent(planner.Make(context.Background(), p), "", " ")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(harvestTimetable, append(data, '\n'), 0o644); err != nil {
		t.Fatal(err)
	}
}
