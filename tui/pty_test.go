//go:build unix

package tui_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"

	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// actor is the variable that makes the test binary be the program on the other
// side of the terminal; its value says what happens there.
const actor = "KETTLEDRUM_TEST_ACTOR"

func TestMain(m *testing.M) {
	if what := os.Getenv(actor); what != "" {
		os.Exit(act(what))
	}
	os.Exit(m.Run())
}

// act shows the screen of the dinner on the terminal at hand.
func act(what string) int {
	st := stage("three-at-once")
	p, table := tuitest.Dinner()
	state, err := run.Fold(p, append(tuitest.Opening(p, table), st.Events...))
	if err != nil {
		fmt.Println(err)
		return 2
	}
	var c tui.Conductor = tuitest.NewMemory(state)
	switch what {
	case "panic":
		c = explosive{c}
	case "panic-in-update", "panic-in-view":
		// A reading without its temperature, which no journal lets in.
		bad := *state
		bad.Events = append(slices.Clip(bad.Events), run.Event{Seq: 1000, Kind: run.Reading, Step: "chicken/roast"})
		c = tuitest.NewMemory(&bad)
	}
	out := tui.NewOutput(os.Stdout)
	_, err = tui.Run(context.Background(), tui.Options{
		Conductor: c, Out: out, Clock: clock.NewFast(clock.System{}, st.Now, 1), ResumeHint: "kettledrum cook garden.yaml",
		Ring: func(run.Class, int) { _, _ = out.WriteString("\a") },
	})
	switch {
	case errors.Is(err, tui.ErrPanic):
		fmt.Println("ended by a panic:", strings.SplitN(err.Error(), "\n", 2)[0])
		return 3
	case err != nil:
		fmt.Println("ended by", err)
		return 1
	}
	fmt.Println("ended well")
	return 0
}

// explosive panics where it should write.
type explosive struct{ tui.Conductor }

func (explosive) Record(...run.Event) (*run.State, error) { panic("on purpose") }

// terminal is an emulated one with the program on its other side.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	pty  *os.File
	mu   sync.Mutex // of the emulator
	emu  *vt.Emulator
	news chan struct{} // something was written, or the program ended
	bell int
	gone bool
	raw  strings.Builder
}

func open(t *testing.T, what string) *terminal {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	x := &terminal{t: t, cmd: exec.Command(self), emu: vt.NewEmulator(80, 24), news: make(chan struct{}, 1)}
	x.cmd.Env = append(os.Environ(), actor+"="+what, "TERM=xterm-256color", "LC_ALL=C.UTF-8", "COLORTERM=truecolor", "NO_COLOR=")
	x.emu.SetCallbacks(vt.Callbacks{Bell: func() { x.bell++ }})
	x.pty, err = pty.StartWithSize(x.cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		t.Fatal(err)
	}
	var wait sync.WaitGroup
	wait.Go(func() { _, _ = io.Copy(x.pty, x.emu) }) // the emulator's replies
	wait.Go(x.read)
	t.Cleanup(func() {
		_ = x.cmd.Process.Kill()
		_ = x.pty.Close()
		_ = x.emu.InputPipe().(io.Closer).Close() // its own Close races with Read
		wait.Wait()
	})
	return x
}

// read feeds what the program writes to the emulator until it ends.
func (x *terminal) read() {
	buf := make([]byte, 4096)
	for {
		n, err := x.pty.Read(buf)
		x.mu.Lock()
		_, _ = x.emu.Write(buf[:n])
		x.raw.Write(buf[:n])
		x.gone = x.gone || err != nil
		x.mu.Unlock()
		select {
		case x.news <- struct{}{}:
		default:
		}
		if err != nil {
			return
		}
	}
}

// screen is what the emulator shows, and whether it is the alternate screen.
func (x *terminal) screen() (text string, alternate, gone bool) {
	x.mu.Lock()
	defer x.mu.Unlock()
	var b strings.Builder
	for y := range x.emu.Height() {
		for c := 0; c < x.emu.Width(); c++ {
			if cell := x.emu.CellAt(c, y); cell != nil {
				b.WriteString(cell.Content)
			}
		}
		b.WriteByte('\n')
	}
	return b.String(), x.emu.IsAltScreen(), x.gone
}

// written is all that the program wrote so far.
func (x *terminal) written() string {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.raw.String()
}

// patience is after what time a screen that does not come is a failure. It
// bounds no speed: the wait ends when the screen is there.
const patience = 60 * time.Second

// until waits for the screen to hold a text, pressing a key again and again
// where one is given: a key that is too soon does nothing, by design.
func (x *terminal) until(text, key string) string {
	x.t.Helper()
	give := time.NewTimer(patience)
	defer give.Stop()
	again := time.NewTicker(2 * tui.Repeat)
	defer again.Stop()
	for {
		now, _, gone := x.screen()
		if strings.Contains(now, text) {
			return now
		}
		if gone {
			x.t.Fatalf("the program ended before %q was shown:\n%s", text, now)
		}
		select {
		case <-x.news:
		case <-again.C:
			x.press(key)
		case <-give.C:
			x.t.Fatalf("%q is not shown:\n%s", text, now)
		}
	}
}

func (x *terminal) press(keys string) {
	x.t.Helper()
	if _, err := io.WriteString(x.pty, keys); err != nil {
		x.t.Fatal(err)
	}
}

// end waits for the program to end and returns its exit code.
func (x *terminal) end() int {
	x.t.Helper()
	for {
		if _, _, gone := x.screen(); gone {
			break
		}
		<-x.news
	}
	_ = x.cmd.Wait()
	return x.cmd.ProcessState.ExitCode()
}

func TestOnATerminal(t *testing.T) {
	t.Parallel()
	x := open(t, "cook")
	first := x.until("? help", "") // its last line
	for _, s := range []string{"► NOW   Simmer the pears", "17:1", "Garden supper", "GOING", "OVEN", "COURSES"} {
		if !strings.Contains(first, s) {
			t.Errorf("the first frame lacks %q:\n%s", s, first)
		}
	}
	if _, alternate, _ := x.screen(); !alternate {
		t.Error("the screen is not the alternate one")
	}
	raw := x.written()
	if strings.Contains(raw, "00:00") {
		t.Errorf("a frame before the first heartbeat was shown: %q", raw)
	}
	if !strings.Contains(raw, "\x1b[38;2;") {
		t.Errorf("a terminal of true colour is shown none: %q", raw)
	}
	x.until("Nothing to do until", " ")
	x.press("+")
	x.until("Peel the potatoes: 5 min more", "")
	x.press("q")
	x.until("go on with: kettledrum cook garden.yaml", "")
	x.press("y")
	if code := x.end(); code != 0 {
		t.Errorf("exit code %d, want 0", code)
	}
	text, alternate, _ := x.screen()
	if alternate || !strings.Contains(text, "ended well") {
		t.Errorf("after quitting: alternate screen %v, text:\n%s", alternate, text)
	}
	if x.bell != 1 {
		t.Errorf("%d bells, want 1: one cue was open", x.bell)
	}
	// Queries: OSC 11 asks for the background, CSI c for what the terminal is.
	if raw := x.written(); strings.Contains(raw, "\x1b]11;?") || strings.Contains(raw, "\x1b[c") {
		t.Error("the terminal was asked questions")
	}
}

// TestTerminalIsRestored ends the program in ways that nobody wishes for.
func TestTerminalIsRestored(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name string
		how  func(*terminal)
		code int
		says string
	}{
		{"hangup", func(x *terminal) { _ = x.cmd.Process.Signal(syscall.SIGHUP) }, 0, "ended well"},
		{"terminate", func(x *terminal) { _ = x.cmd.Process.Signal(syscall.SIGTERM) }, 0, "ended well"},
		{"interrupt", func(x *terminal) { _ = x.cmd.Process.Signal(os.Interrupt) }, 0, "ended well"},
		{"panic", func(x *terminal) { x.press("d") }, 3, "on purpose"},
		{"panic-in-update", func(x *terminal) { x.press("u") }, 3, "nil pointer"}, // it says what it would take back
		{"panic-in-view", func(x *terminal) { x.press("g") }, 3, "nil pointer"},   // the log has it
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			x := open(t, c.name)
			x.until("► NOW", "")
			c.how(x)
			if code := x.end(); code != c.code {
				t.Errorf("exit code %d, want %d", code, c.code)
			}
			text, alternate, _ := x.screen()
			if alternate || !strings.Contains(text, c.says) {
				t.Errorf("alternate screen %v, want none and %q in:\n%s", alternate, c.says, text)
			}
			if !strings.Contains(x.written(), "\x1b[?25h") {
				t.Error("the cursor stays hidden")
			}
		})
	}
}
