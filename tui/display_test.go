package tui

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/vt"
	"pgregory.net/rapid"
)

// shows is what an emulated terminal shows.
func shows(e *vt.Emulator) string {
	lines := make([]string, e.Height())
	for y := range lines {
		var b strings.Builder
		for x := 0; x < e.Width(); x++ {
			if c := e.CellAt(x, y); c != nil {
				b.WriteString(c.Content)
			}
		}
		lines[y] = b.String()
	}
	return strings.Join(lines, "\n")
}

// Whatever was drawn before, at whatever size, the terminal shows the last frame.
func TestTheTerminalShowsTheLastFrame(t *testing.T) {
	t.Parallel()
	signs := []string{"a", "7", " ", " ", "━", "█", "大", "é", "\x1b[1mB\x1b[m", "\x1b[38;2;1;2;3mc\x1b[39m"}
	rapid.Check(t, func(r *rapid.T) {
		e := vt.NewEmulator(8, 4)
		_, _ = e.WriteString(takeOver)
		var c canvas
		w, h := 8, 4
		for range rapid.IntRange(1, 12).Draw(r, "frames") {
			if rapid.IntRange(0, 4).Draw(r, "resize") == 0 {
				w, h = rapid.IntRange(1, 12).Draw(r, "width"), rapid.IntRange(1, 6).Draw(r, "height")
				e.Resize(w, h)
				c = canvas{}
			}
			lines := make([]string, h)
			for i := range lines {
				if i < len(c.lines) && rapid.Bool().Draw(r, "unchanged") {
					lines[i] = c.lines[i]
					continue
				}
				var b strings.Builder
				left := w
				for left > 0 {
					s := rapid.SampledFrom(signs).Draw(r, "sign")
					if n := ansi.StringWidth(s); n <= left {
						b.WriteString(s)
						left -= n
					}
				}
				lines[i] = b.String()
			}
			frame := strings.Join(lines, "\n")
			_, _ = e.WriteString(c.draw(frame))
			if got, want := shows(e), ansi.Strip(frame); got != want {
				r.Fatalf("the terminal shows\n%q, the frame is\n%q", got, want)
			}
		}
	})
}

// A line that did not change costs nothing, one digit its line.
func TestOnlyChangedLinesAreDrawn(t *testing.T) {
	t.Parallel()
	var c canvas
	first := c.draw("one 1\ntwo 2\nthree")
	if !strings.HasPrefix(first, ansi.EraseEntireScreen) || strings.Count(first, "\n") != 0 {
		t.Errorf("the first frame is drawn as %q", first)
	}
	if s := c.draw("one 1\ntwo 2\nthree"); s != "" {
		t.Errorf("the same frame again costs %q", s)
	}
	if s, want := c.draw("one 1\ntwo 3\nthree"), ansi.CursorPosition(1, 2)+ansi.EraseLineRight+"two 3"; s != want {
		t.Errorf("one digit costs %q, want %q", s, want)
	}
}

// A terminal that takes nothing for a while is then shown the newest frame, and
// nobody has waited for it.
func TestASlowTerminalHoldsNobodyUp(t *testing.T) {
	t.Parallel()
	w := &gate{open: make(chan struct{})}
	d, err := openDisplay(strings.NewReader(""), w)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []string{"one", "two", "six"} {
		d.show(s)
	}
	close(w.open)
	d.close()
	got := w.b.String()
	if !strings.HasPrefix(got, takeOver) || !strings.HasSuffix(got, giveBack) || !strings.Contains(got, "six") || strings.Contains(got, "two") && strings.Contains(got, "one") {
		t.Errorf("the terminal got %q", got)
	}
}

// gate is a terminal that lets nothing but how it is taken through until it is open.
type gate struct {
	b    strings.Builder
	open chan struct{}
	n    int
}

func (g *gate) Write(p []byte) (int, error) {
	if g.n++; g.n > 1 {
		<-g.open
	}
	return g.b.Write(p)
}
