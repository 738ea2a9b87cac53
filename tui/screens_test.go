package tui_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/muesli/termenv"

	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

var (
	update   = flag.Bool("update", false, "rewrite the golden screens and the picture for the README")
	pictures = flag.String("pictures", "", "a folder to write a picture of every screen to, on a dark and on a light ground")
)

var sizes = [][2]int{{60, 18}, {80, 24}, {120, 40}}

func golden(t *testing.T, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", name+".golden")
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatalf("%v; make it with -update", err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("screen %s (-want +got):\n%s", name, diff)
	}
}

func at(t testing.TB, st tuitest.Stage, c tuitest.Config) *tuitest.Screen {
	t.Helper()
	c.Now, c.Events = st.Now, st.Events
	return tuitest.New(t, c)
}

func TestScreens(t *testing.T) {
	t.Parallel()
	for _, st := range tuitest.Stages() {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", st.Name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				golden(t, name, at(t, st, tuitest.Config{Width: size[0], Height: size[1]}).Frame())
			})
		}
	}
}

func TestScreensOfOtherModes(t *testing.T) {
	t.Parallel()
	three := stage("three-at-once")
	for name, keys := range map[string]string{
		"help": "?", "quit": "q", "skip": "down down x", "timer": "t", "selected": "down down down", "minutes": "e",
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := at(t, three, tuitest.Config{Width: 80, Height: 24})
			s.Keys(keys)
			if name == "timer" {
				s.Type("tea")
				s.Press("enter")
			}
			golden(t, "mode-"+name, s.Frame())
		})
	}
	t.Run("rehearsal", func(t *testing.T) {
		t.Parallel()
		golden(t, "rehearsal", at(t, three, tuitest.Config{Width: 80, Height: 24, Rehearsal: true}).Frame())
	})
	t.Run("ascii", func(t *testing.T) {
		t.Parallel()
		frame := at(t, three, tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(true)}).Frame()
		for _, r := range frame {
			if r > 126 {
				t.Fatalf("%q is no ASCII in:\n%s", r, frame)
			}
		}
		golden(t, "ascii", frame)
	})
}

// TestColours holds the tokens of one screen: what has which look.
func TestColours(t *testing.T) {
	t.Parallel()
	s := at(t, stage("moved"), tuitest.Config{Width: 80, Height: 24, Theme: theme.New(termenv.TrueColor, true, false)})
	golden(t, "colours", fmt.Sprintf("%q\n", tui.View(s.Model)))
}

func stage(name string) tuitest.Stage {
	for _, st := range tuitest.Stages() {
		if st.Name == name {
			return st
		}
	}
	panic("no stage " + name)
}
