package tui_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/muesli/termenv"

	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// picture draws a screen as a terminal on a ground shows it.
func picture(t *testing.T, s *tuitest.Screen, on tuitest.Ground) []byte {
	t.Helper()
	var out bytes.Buffer
	w, h := s.Model.Size()
	if err := tuitest.Picture(&out, tui.View(s.Model), w, h, on); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestPicture keeps the picture for the README as the screen is.
func TestPicture(t *testing.T) {
	t.Parallel()
	th := theme.New(termenv.TrueColor, true, false)
	fresh := picture(t, at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Theme: th}), tuitest.Dark)
	file := filepath.Join("testdata", "screen.svg")
	if *update {
		if err := os.WriteFile(file, fresh, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if kept, err := os.ReadFile(file); err != nil || !bytes.Equal(kept, fresh) {
		t.Errorf("%s is not what the screen looks like now; rewrite it with -update (%v)", file, err)
	}
}

// TestPictures writes a picture of every screen, to be looked at, where -pictures asks
// for it.
func TestPictures(t *testing.T) {
	t.Parallel()
	if *pictures == "" {
		return
	}
	harvested, show := harvest(t)
	for _, look := range []struct {
		name string
		on   tuitest.Ground
		th   *theme.Theme
	}{
		{"dark", tuitest.Dark, theme.New(termenv.TrueColor, true, false)},
		{"light", tuitest.Light, theme.New(termenv.TrueColor, false, false)},
		{"ascii", tuitest.Dark, theme.New(termenv.Ascii, true, true)},
		{"sixteen", tuitest.Dark, theme.New(termenv.ANSI, true, false)},
	} {
		for _, size := range [][2]int{{60, 18}, {80, 24}, {120, 40}, {200, 60}} {
			c := tuitest.Config{Width: size[0], Height: size[1], Theme: look.th}
			write := func(name string, s *tuitest.Screen) {
				file := filepath.Join(*pictures, fmt.Sprintf("%s-%s-%dx%d.svg", look.name, name, size[0], size[1]))
				if err := os.WriteFile(file, picture(t, s, look.on), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			for _, st := range tuitest.Stages() {
				write(st.Name, at(t, st, c))
			}
			for _, st := range harvested {
				s := show(st, c)
				write("harvest-"+st.Name, s)
				s.Keys("esc v") // out of the list on return
				write("harvest-"+st.Name+"-lanes", s)
			}
			for _, v := range otherViews {
				s := at(t, stage(v.stage), c)
				s.Keys(v.keys)
				write("view-"+v.name, s)
			}
		}
	}
}
