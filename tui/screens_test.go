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
	pictures = flag.String("pictures", "", "a folder to write a picture of every stage to")
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

// TestPicture keeps the picture for the README as the screen is.
func TestPicture(t *testing.T) {
	t.Parallel()
	th := theme.New(termenv.TrueColor, true, false)
	write := func(file string, s *tuitest.Screen) {
		f, err := os.Create(file)
		if err != nil {
			t.Fatal(err)
		}
		defer func() { _ = f.Close() }()
		w, h := s.Model.Size()
		if err := tuitest.Picture(f, tui.View(s.Model), w, h); err != nil {
			t.Fatal(err)
		}
	}
	fresh := filepath.Join(t.TempDir(), "screen.svg")
	kept := filepath.Join("testdata", "screen.svg")
	if *update {
		fresh = kept
	}
	write(fresh, at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Theme: th}))
	a, _ := os.ReadFile(fresh)
	b, err := os.ReadFile(kept)
	if err != nil || string(a) != string(b) {
		t.Errorf("testdata/screen.svg is not what the screen looks like now; rewrite it with -update (%v)", err)
	}
	if *pictures != "" {
		for _, st := range tuitest.Stages() {
			for _, size := range sizes {
				write(filepath.Join(*pictures, fmt.Sprintf("%s-%dx%d.svg", st.Name, size[0], size[1])), at(t, st, tuitest.Config{Width: size[0], Height: size[1], Theme: th}))
			}
		}
		for _, v := range otherViews {
			for _, size := range sizes {
				s := at(t, stage(v.stage), tuitest.Config{Width: size[0], Height: size[1], Theme: th})
				s.Keys(v.keys)
				write(filepath.Join(*pictures, fmt.Sprintf("view-%s-%dx%d.svg", v.name, size[0], size[1])), s)
			}
		}
	}
}
