package tui

import (
	"io"
	"os"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"
)

// The terminal's side of a frame. The terminal library would draw by a ticker that
// wakes the machine sixty times a second and makes each key wait for it; a frame is
// drawn here the moment it is made, and nothing wakes up in between.

// takeOver turns a terminal into the screen of a program: its title is put aside, the
// alternate screen comes, without a cursor; pasted text is marked as such; it is told
// whether the window is in front; and a line that a terminal takes for wider than we
// do ends at the margin, and not on the next line. giveBack undoes all of it, in turn.
const (
	takeOver = pushTitle + ansi.SetModeAltScreenSaveCursor + ansi.ResetModeTextCursorEnable +
		ansi.SetModeBracketedPaste + ansi.SetModeFocusEvent + ansi.ResetModeAutoWrap
	giveBack = ansi.ResetStyle + ansi.SetModeAutoWrap + ansi.ResetModeFocusEvent + ansi.ResetModeBracketedPaste +
		ansi.SetModeTextCursorEnable + ansi.ResetModeAltScreenSaveCursor + popTitle
)

// The title that the window had is put aside and brought back: XTWINOPS 22 and 23 of
// xterm's control sequences (from memory). Other terminals ignore them.
const (
	pushTitle = "\x1b[22;2t"
	popTitle  = "\x1b[23;2t"
)

// Output is a terminal that several write to: each Write goes out whole, so
// that a bell never falls into the middle of a frame.
type Output struct {
	*os.File
	mu sync.Mutex
}

// NewOutput returns an Output on a file.
func NewOutput(f *os.File) *Output { return &Output{File: f} }

// Write writes p with nothing of other writes in between.
func (o *Output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.File.Write(p)
}

// WriteString is Write for a string.
func (o *Output) WriteString(s string) (int, error) { return o.Write([]byte(s)) }

// display is a terminal while it shows frames. A goroutine of its own writes them, so
// that a slow line holds up neither keys nor rings: it then shows the newest frame
// and leaves out those before it.
type display struct {
	in     io.Reader
	out    io.Writer
	frames chan string // the newest that is not drawn yet
	done   chan struct{}
	// lost: what the terminal shows is not what was drawn. taken: another program has
	// had the terminal. With the next frame that is mended.
	lost, taken atomic.Bool
	restore     func() // the modes of input and output
}

// openDisplay takes the terminal. Where in and out are none it only writes.
//
// Errors: a terminal that cannot be switched.
func openDisplay(in io.Reader, out io.Writer) (*display, error) {
	restore, err := rawMode(in, out)
	if err != nil {
		return nil, err
	}
	d := &display{in: in, out: out, frames: make(chan string, 1), done: make(chan struct{}), restore: restore}
	_, _ = io.WriteString(out, takeOver)
	go d.run()
	return d, nil
}

// rawMode has keys come one by one, unechoed, and escape sequences understood.
func rawMode(in io.Reader, out io.Writer) (restore func(), err error) {
	back := []func(){}
	restore = func() {
		for _, f := range back {
			f()
		}
	}
	if fd, ok := terminalOf(in); ok {
		was, err := term.MakeRaw(fd)
		if err != nil {
			return nil, err
		}
		back = append(back, func() { _ = term.Restore(fd, was) })
	}
	if fd, ok := terminalOf(out); ok {
		was, err := term.GetState(fd)
		if err == nil {
			err = understandSequences(fd)
		}
		if err != nil {
			restore()
			return nil, err
		}
		back = append([]func(){func() { _ = term.Restore(fd, was) }}, back...)
	}
	return restore, nil
}

// terminalOf returns the descriptor of a terminal; ok is false for anything else.
func terminalOf(of any) (fd uintptr, ok bool) {
	f, ok := of.(term.File)
	if !ok || !term.IsTerminal(f.Fd()) {
		return 0, false
	}
	return f.Fd(), true
}

// size is how large the terminal is, in cells; ok is false where nobody knows.
func (d *display) size() (width, height int, ok bool) {
	fd, ok := terminalOf(d.out)
	if !ok {
		return 0, 0, false
	}
	w, h, err := term.GetSize(fd)
	return w, h, err == nil && w > 0 && h > 0
}

// show has a frame drawn, in place of one that was not drawn yet. One goroutine
// calls it.
func (d *display) show(frame string) {
	select {
	case <-d.frames:
	default:
	}
	d.frames <- frame
}

func (d *display) run() {
	defer close(d.done)
	var c canvas
	for frame := range d.frames {
		if d.taken.Swap(false) {
			_, _ = rawMode(d.in, d.out) // what is restored at the end was there before
			_, _ = io.WriteString(d.out, takeOver)
		}
		if d.lost.Swap(false) {
			c = canvas{}
		}
		if s := c.draw(frame); s != "" {
			_, _ = io.WriteString(d.out, s) // a terminal that is gone ends the input as well
		}
	}
}

// close draws what is still to be drawn and gives the terminal back.
func (d *display) close() {
	close(d.frames)
	<-d.done
	_, _ = io.WriteString(d.out, giveBack)
	d.restore()
}

// title names the window. The text is clean.
func (d *display) title(text string) { _, _ = io.WriteString(d.out, ansi.SetWindowTitle(text)) }

// canvas is what a terminal shows, line by line.
type canvas struct {
	lines []string
	width int
}

// draw returns what turns the terminal's screen into the frame: the lines that
// differ. A frame of another size, or the first, is drawn whole on an empty screen.
// Each line of a frame is as wide as the screen (see View).
func (c *canvas) draw(frame string) string {
	lines := strings.Split(frame, "\n")
	wide := ansi.StringWidth(lines[0])
	var b strings.Builder
	whole := len(lines) != len(c.lines) || wide != c.width
	if whole {
		b.WriteString(ansi.EraseEntireScreen)
	}
	for i, s := range lines {
		if !whole && s == c.lines[i] {
			continue
		}
		b.WriteString(ansi.CursorPosition(1, i+1))
		if !whole { // where a terminal takes signs for narrower than we do, nothing old stays at the end
			b.WriteString(ansi.EraseLineRight)
		}
		b.WriteString(s)
	}
	c.lines, c.width = lines, wide
	return b.String()
}
