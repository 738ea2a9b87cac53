//go:build unix

package main

import (
	"bufio"
	"io"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A second terminal shows what is told in the first, and can tell nothing itself.
func TestFollowShowsWhatIsToldElsewhere(t *testing.T) {
	t.Parallel()
	dir, state := t.TempDir(), t.TempDir()
	file := supper(t, dir)

	nobody := start(t, state, "follow", file)
	nobody.await(`no dinner is being cooked that could be followed`)
	if got := nobody.exit(); got != exitUse {
		t.Errorf("with nothing to follow: exit code %d, want %d", got, exitUse)
	}

	first := start(t, state, "cook", file)
	first.await(`NOW +Pickle`)
	second := start(t, state, "follow") // the only one under way
	second.await(`following`)
	second.await(`NOW +Pickle`)
	second.insist(" ", `this screen only follows`)

	const going = `GOING.*?(\d\d:\d\d) .*Pickle the r`
	end := first.insist(" ", going)[1]
	if got := second.await(going)[1]; got != end {
		t.Errorf("the second screen shows the end %s, the first %s", got, end)
	}
	second.press("q")
	if got := second.exit(); got != exitFine {
		t.Errorf("a follower that was quit ended with %d, want %d", got, exitFine)
	}
	if err := first.cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
}

// lines is a command whose output is read line by line.
type lines struct {
	t   *testing.T
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Scanner
}

func startLines(t *testing.T, state string, args ...string) *lines {
	t.Helper()
	l := &lines{t: t, cmd: exec.Command(program, args...)}
	l.cmd.Env = append(os.Environ(), "TZ=UTC", "LANG=en_US.UTF-8", "XDG_STATE_HOME="+state)
	in, err := l.cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := l.cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	l.in, l.out = in, bufio.NewScanner(out)
	if err := l.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	guard := time.AfterFunc(hang, func() { _ = l.cmd.Process.Kill() }) // ends a wait that would never end
	t.Cleanup(func() {
		guard.Stop()
		_ = l.cmd.Process.Kill()
		_ = l.cmd.Wait()
	})
	return l
}

func (l *lines) await(pattern string) string {
	l.t.Helper()
	re := regexp.MustCompile(pattern)
	var seen []string
	for l.out.Scan() {
		seen = append(seen, l.out.Text())
		if re.MatchString(l.out.Text()) {
			return l.out.Text()
		}
	}
	l.t.Fatalf("no line is like %s; it printed:\n%s", pattern, strings.Join(seen, "\n"))
	return ""
}

func (l *lines) say(s string) {
	l.t.Helper()
	if _, err := io.WriteString(l.in, s+"\n"); err != nil {
		l.t.Fatal(err)
	}
}

// A whole conversation without a screen: nothing but lines goes out, and what is
// told is in the journal that a second one follows.
func TestPlainCook(t *testing.T) {
	t.Parallel()
	dir, state := t.TempDir(), t.TempDir()
	file := supper(t, dir)
	cook := startLines(t, state, "cook", "--plain", file)
	cook.await(`NOW    Pickle the radishes.*\(Enter: started\)`)
	follow := startLines(t, state, "follow", "--plain", file)
	follow.await(`NOW    Pickle the radishes`)

	cook.say("")
	cook.await(`  started$`)
	cook.say("t tea 4")
	cook.await(`timer tea, 4 min$`)
	cook.say("w 3")
	cook.await(`Cook is away, minutes`)
	cook.say("esc")
	cook.say("w 3")
	cook.await(`Cook is away, minutes`)
	cook.say("30")
	cook.await(`Cook away until \d\d:\d\d$`)
	cook.say("f")
	cook.await(`^COOKS .*Cook +away until \d\d:\d\d`)
	cook.say("u")
	cook.await(`taken back: Cook away until`)
	cook.say("zz")
	cook.await(`zz does nothing here`)
	cook.say("g")
	cook.await(`Pickle the radishes, started`)
	cook.say("/ plate")
	cook.await(`Plate the radishes`)
	follow.await(`timer tea, 4 min`)
	follow.say("q")
	if err := follow.cmd.Wait(); err != nil {
		t.Errorf("follow ended with %v", err)
	}
	cook.say("q")
	cook.await(`Quit while 2 steps or timers go on\? y or n`)
	cook.say("y")
	for cook.out.Scan() {
		if strings.Contains(cook.out.Text(), "\x1b") {
			t.Errorf("an escape sequence among the lines: %q", cook.out.Text())
		}
	}
	if err := cook.cmd.Wait(); err != nil {
		t.Errorf("cook ended with %v", err)
	}
}
