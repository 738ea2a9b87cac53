package tui_test

import (
	"fmt"
	"testing"

	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// view is a view as the keys lead to it.
type view struct{ name, stage, keys string }

var otherViews = []view{
	{"far-small", "three-at-once", "f"},
	{"far-medium", "three-at-once", "f f"},
	{"far-large", "three-at-once", "f f f"},
	{"far-idle", "running-long", "f f"},
	{"far-served", "served", "f"},
	{"far-up-small", "time-is-up", "f"},
	{"far-up-medium", "time-is-up", "f f"},
	{"far-up-large", "time-is-up", "f f f"},
	{"lanes", "three-at-once", "v"},
	{"lanes-selected", "going", "v up up left"},
	{"lanes-zoomed", "moved", "v z"},
	{"step", "three-at-once", "down down o"},
	{"step-done", "moved", "/ p e e l enter"},
	{"days", "three-at-once", "y"},
	{"log", "moved", "g"},
	{"step-inside", "readings", "o"},
	{"wrong", "three-at-once", "w"},
	{"wrong-step", "three-at-once", "down down down o w"},
	{"find", "three-at-once", "/ p e a"},
	{"missing", "three-at-once", "w 3 3 0 enter w 6 w 8 w 8"}, // a cook is away, burners have failed
	{"found", "three-at-once", "/ c a r v e enter esc"},
}

// TestViews keeps the other views.
func TestViews(t *testing.T) {
	t.Parallel()
	for _, v := range otherViews {
		for _, size := range sizes {
			name := fmt.Sprintf("view-%s-%dx%d", v.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				s := at(t, stage(v.stage), tuitest.Config{Width: size[0], Height: size[1]})
				s.Keys(v.keys)
				golden(t, name, s.Frame())
			})
		}
		if v.name == "far-medium" || v.name == "far-up-small" || v.name == "lanes" {
			t.Run(v.name+"-ascii", func(t *testing.T) {
				t.Parallel()
				s := at(t, stage(v.stage), tuitest.Config{Width: 80, Height: 24, Theme: theme.Bare(true)})
				s.Keys(v.keys)
				golden(t, "view-"+v.name+"-ascii", s.Frame())
			})
		}
	}
}
