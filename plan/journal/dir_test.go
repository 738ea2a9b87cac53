package journal

import (
	"path/filepath"
	"testing"
	"time"
)

func TestRunDir(t *testing.T) {
	t.Parallel()
	table := time.Date(2026, 10, 17, 19, 0, 0, 0, time.UTC)
	tests := []struct{ name, title, want string }{
		{"words", "Harvest supper", "2026-10-17-1900-harvest-supper"},
		{"accents", "Dîner d'été à Zürich", "2026-10-17-1900-diner-d-ete-a-zurich"},
		{"no-letters", "!?", "2026-10-17-1900-dinner"},
		{"other-script", "夕食", "2026-10-17-1900-dinner"},
		{"way-out", "../../etc/passwd", "2026-10-17-1900-etc-passwd"},
		{"long", "A very long title that goes on and on and on for ever", "2026-10-17-1900-a-very-long-title-that-goes-on-and-on-an"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got, want := RunDir("state", tt.title, table), filepath.Join("state", "runs", tt.want); got != want {
				t.Errorf("got %s, want %s", got, want)
			}
		})
	}
}

func TestStateDir(t *testing.T) {
	t.Setenv("HOME", "/home/ines")
	t.Setenv("XDG_STATE_HOME", "/elsewhere")
	if got, err := StateDir(); err != nil || got != filepath.FromSlash("/elsewhere/kettledrum") {
		t.Errorf("got %s, %v", got, err)
	}
	t.Setenv("XDG_STATE_HOME", "relative")
	if got, err := StateDir(); err != nil || !filepath.IsAbs(got) || got == "relative/kettledrum" {
		t.Errorf("relative: got %s, %v", got, err)
	}
}
