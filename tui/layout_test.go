package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// draw shows a layout as letters: N now, g going, c courses, n next, o oven,
// b broken, ! caution, k cooks, f burners, m moved; t title, - rule, ! message, ? help.
func draw(l layout) string {
	grid := make([][]byte, l.height)
	for y := range grid {
		grid[y] = []byte(strings.Repeat(".", l.width/4))
	}
	fill := func(r rect, with byte) {
		for y := r.y; y < r.y+r.h; y++ {
			for x := r.x / 4; x < (r.x+r.w)/4; x++ {
				grid[y][x] = with
			}
		}
	}
	for p, r := range l.panes {
		fill(r, "Ngcnob!kfm"[p])
	}
	fill(rect{0, 0, l.width, 1}, 't')
	if l.rule >= 0 {
		fill(rect{0, l.rule, l.width, 1}, '-')
	}
	fill(rect{0, l.message, l.width, l.messageH}, '!')
	fill(rect{0, l.help, l.width, 1}, '?')
	var out []string
	for _, row := range grid {
		out = append(out, string(row))
	}
	return strings.Join(out, "\n")
}

// busy is a moment with much of everything.
var busy = [panes]need{
	paneNow: {least: 4, good: 6, full: 9}, paneGoing: {least: 2, good: 5, full: 10}, paneCourses: {least: 2, good: 3, full: 3}, paneNext: {least: 1, good: 3, full: 12}, paneOven: {least: 1, good: 2, full: 2},
	paneBroken: {least: 1, good: 1, full: 1}, paneCaution: {least: 0, good: 1, full: 2}, paneCooks: {least: 0, good: 2, full: 2}, paneBurners: {least: 0, good: 1, full: 2}, paneMoved: {least: 0, good: 2, full: 3},
}

func TestArrangeAsBoxes(t *testing.T) {
	t.Parallel()
	var out strings.Builder
	for _, size := range [][2]int{{60, 18}, {80, 24}, {80, 50}, {120, 40}} {
		fmt.Fprintf(&out, "%d by %d\n%s\n\n", size[0], size[1], draw(arrange(size[0], size[1], busy, 1)))
	}
	file := filepath.Join("testdata", "layout.golden")
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile(file, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), out.String()); diff != "" {
		t.Errorf("boxes (-want +got):\n%s", diff)
	}
}

// TestArrangeNeverOverlaps holds for any size at which there are panes: each
// cell belongs to one pane, nothing leaves the screen, and what to do now is there.
func TestArrangeNeverOverlaps(t *testing.T) {
	t.Parallel()
	for w := LeastWidth; w <= 200; w += 7 {
		for h := LeastHeight; h <= 70; h += 3 {
			for message := 1; message <= 4; message++ {
				l := arrange(w, h, busy, message)
				used := map[[2]int]pane{}
				for p, r := range l.panes {
					if r.h == 0 {
						continue
					}
					if r.y < 1 || r.y+r.h > l.message || r.x < 0 || r.x+r.w > w {
						t.Fatalf("%d×%d: pane %d at %v leaves its place", w, h, p, r)
					}
					for y := r.y; y < r.y+r.h; y++ {
						for x := r.x; x < r.x+r.w; x++ {
							if other, taken := used[[2]int{x, y}]; taken {
								t.Fatalf("%d×%d: panes %d and %d overlap", w, h, other, p)
							}
							used[[2]int{x, y}] = pane(p)
						}
					}
				}
				for _, p := range []pane{paneNow, paneGoing, paneCourses} {
					if l.panes[p].h < busy[p].least {
						t.Fatalf("%d×%d with %d message lines: pane %d has %d lines, needs %d", w, h, message, p, l.panes[p].h, busy[p].least)
					}
				}
			}
		}
	}
}
