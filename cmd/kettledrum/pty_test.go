//go:build unix

package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/charmbracelet/x/vt"
	"github.com/creack/pty"

	"example.org/kettledrum/tui"
)

// hang is when a screen that does not come is given up. It only bounds a
// failure: nothing is measured against it.
const hang = 60 * time.Second

// onScreen is the real command in a pseudo-terminal, with what a cook would see.
type onScreen struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	read chan struct{} // closed when all output is read

	mu      sync.Mutex
	screen  *vt.Emulator
	changed *sync.Cond // the screen, or the end of output
	ended   bool
}

// start runs kettledrum in a terminal of 80×24 with its runs kept in state, and
// without a sound: whoever runs the tests may have a loudspeaker.
func start(t *testing.T, state string, args ...string) *onScreen {
	t.Helper()
	s := &onScreen{t: t, cmd: exec.Command(program, append(args, "--mute")...), screen: vt.NewEmulator(80, 24), read: make(chan struct{})}
	s.changed = sync.NewCond(&s.mu)
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "TZ=UTC", "LANG=en_US.UTF-8", "XDG_STATE_HOME="+state)
	var err error
	if s.tty, err = pty.StartWithSize(s.cmd, &pty.Winsize{Rows: 24, Cols: 80}); err != nil {
		t.Fatal(err)
	}
	answers := make(chan struct{})
	go func() { // of the terminal
		defer close(answers)
		_, _ = io.Copy(s.tty, s.screen)
	}()
	go s.draw()
	t.Cleanup(func() {
		_ = s.cmd.Process.Kill()
		_ = s.cmd.Wait()
		<-s.read
		// Not screen.Close: it races with the Read of the answers.
		if p, ok := s.screen.InputPipe().(io.Closer); ok {
			_ = p.Close()
		}
		<-answers
		_ = s.tty.Close()
	})
	return s
}

// draw feeds the command's output to the screen until it ends.
func (s *onScreen) draw() {
	defer close(s.read)
	buf := make([]byte, 4096)
	for {
		n, err := s.tty.Read(buf)
		s.mu.Lock()
		_, _ = s.screen.Write(buf[:n])
		s.ended = err != nil
		s.changed.Broadcast()
		s.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// await waits until the screen matches and returns the match.
func (s *onScreen) await(pattern string) []string {
	s.t.Helper()
	re := regexp.MustCompile(pattern)
	late := false
	guard := time.AfterFunc(hang, func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		late = true
		s.changed.Broadcast()
	})
	defer guard.Stop()
	s.mu.Lock()
	defer s.mu.Unlock()
	for {
		if m := re.FindStringSubmatch(s.screen.String()); m != nil {
			return m
		}
		if s.ended || late {
			s.t.Fatalf("the screen never showed %s; it shows:\n%s", pattern, s.screen.String())
		}
		s.changed.Wait()
	}
}

// insist types a key again and again, as a cook does who is told to read what
// has only just come up, until the screen matches; it returns the match.
func (s *onScreen) insist(key, pattern string) []string {
	s.t.Helper()
	again := time.NewTicker(2 * tui.Repeat) // sooner counts as the keyboard's repetition
	done := make(chan struct{})
	var typing sync.WaitGroup
	typing.Go(func() {
		for {
			select {
			case <-again.C:
				_, _ = s.tty.WriteString(key)
			case <-done:
				return
			}
		}
	})
	defer typing.Wait()
	defer close(done)
	defer again.Stop()
	return s.await(pattern)
}

// press types a key once.
func (s *onScreen) press(key string) {
	s.t.Helper()
	if _, err := s.tty.WriteString(key); err != nil {
		s.t.Fatal(err)
	}
}

// resize changes the size of the terminal.
func (s *onScreen) resize(w, h int) {
	s.t.Helper()
	s.mu.Lock()
	s.screen.Resize(w, h)
	s.mu.Unlock()
	if err := pty.Setsize(s.tty, &pty.Winsize{Rows: uint16(h), Cols: uint16(w)}); err != nil {
		s.t.Fatal(err)
	}
}

// exit waits for the end of the command and returns its code.
func (s *onScreen) exit() int {
	s.t.Helper()
	<-s.read
	_ = s.cmd.Wait()
	return s.cmd.ProcessState.ExitCode()
}

// supper writes a plan whose one long step wants to start this minute, and
// returns its path.
func supper(t *testing.T, dir string) string {
	t.Helper()
	table := time.Now().UTC().Truncate(time.Minute).Add(50 * time.Minute)
	path := filepath.Join(dir, "supper.yaml")
	text := fmt.Sprintf(`kettledrum: 1
title: Pickled supper
guests: 2
table: %s
zone: UTC
dishes:
  - name: Radishes
    steps:
      - {do: Pickle the radishes, takes: 45m, hands: free}
      - Plate the radishes, 5m
`, table.Format("2006-01-02 15:04"))
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// A cook whose terminal is killed finds the same step going on, with the same
// end, and nobody else can conduct meanwhile.
func TestCookGoesOnAfterKill(t *testing.T) {
	t.Parallel()
	dir, state := t.TempDir(), t.TempDir()
	file := supper(t, dir)
	const going = `GOING.*?(\d\d:\d\d) .*Pickle the r`

	first := start(t, state, "cook", file)
	end := first.insist(" ", going)[1]

	second := start(t, state, "cook", file)
	second.await(`kettledrum: the run is being conducted already, by process \d+`)
	if got := second.exit(); got != exitLocked {
		t.Errorf("a second cook ended with %d, want %d", got, exitLocked)
	}

	if err := first.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	first.exit()

	// The file may be edited meanwhile: the run goes on with its copy.
	if err := os.WriteFile(file, []byte("kettledrum: 1\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	again := start(t, state, "cook", file)
	if got := again.await(going)[1]; got != end {
		t.Errorf("after the kill the step ends at %s, before it ended at %s", got, end)
	}

	again.press("q")
	again.await(`Quit while`)
	again.press("y")
	again.await(`to go on: kettledrum`)
	if got := again.exit(); got != exitFine {
		t.Errorf("a cook that was quit ended with %d, want %d", got, exitFine)
	}
	if text := again.screen.String(); !strings.Contains(text, "supper.yaml has changed") {
		t.Errorf("nothing said that the plan file has changed:\n%s", text)
	}
}

// A rehearsal leaves nothing behind.
func TestRehearseKeepsNothing(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	s := start(t, state, "rehearse", "--from", "17:00")
	s.await(`Harvest supper +rehearsal`)
	s.await(`Going|GOING`)
	s.await(`\d\d:\d\d  .*Roast the pork`)
	s.press("q")
	if got := s.exit(); got != exitFine {
		t.Errorf("exit code %d, want %d", got, exitFine)
	}
	if left, _ := os.ReadDir(state); len(left) > 0 {
		t.Errorf("the rehearsal left %v in the state folder", left)
	}
}
