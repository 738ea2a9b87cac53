// Command screenbench measures the live screen on a pseudo-terminal, as a cook has
// it: screenbench KETTLEDRUM PLAN. It prints what the README's table has. Linux only:
// it reads /proc.
package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"github.com/creack/pty"
)

func main() {
	if err := measure(); err != nil {
		fmt.Fprintln(os.Stderr, "screenbench:", err)
		os.Exit(1)
	}
}

// Of the measuring.
const (
	timers   = 8
	watched  = 20 * time.Second // for bytes
	idle     = time.Minute      // for processor time
	settling = 5 * time.Second  // what goes on beside the first frame is no idling
	keys     = 60
	starts   = 9
	tooSoon  = 300 * time.Millisecond
	between  = 500 * time.Millisecond // sooner, the same key counts as a repetition
	width    = 80
	height   = 24
)

func measure() error {
	if len(os.Args) != 3 {
		return fmt.Errorf("usage: screenbench KETTLEDRUM PLAN")
	}
	state, err := os.MkdirTemp("", "screenbench")
	if err != nil {
		return err
	}
	defer os.RemoveAll(state)
	// The latest that the dinner can be opened for now: then nothing is due yet. In the small
	// hours the day after tomorrow is too far ahead; later it is late tomorrow at noon for
	// what is made a day ahead.
	var first *screen
	for _, at := range []struct{ day, hour int }{{2, 13}, {1, 13}, {1, 20}, {}} {
		if at.day == 0 {
			return fmt.Errorf("%s cannot be opened now for any of the next days", os.Args[2])
		}
		serve := fmt.Sprintf("%s %d:00", time.Now().AddDate(0, 0, at.day).Format(time.DateOnly), at.hour)
		if first, err = open(state, "cook", os.Args[2], "--serve", serve); err != nil {
			return err
		}
		if first.wait(" help ") {
			break
		}
		first.stop()
	}
	time.Sleep(settling)
	first.cpu("idle, no timer")
	for i := range timers {
		first.press("t")
		time.Sleep(tooSoon)
		first.press(fmt.Sprintf("t%d 9\r", i))
		time.Sleep(tooSoon)
	}
	n := first.bytes()
	time.Sleep(watched)
	fmt.Printf("bytes a second with %d timers: %.0f\n", timers, float64(first.bytes()-n)/watched.Seconds())
	first.cpu(fmt.Sprintf("%d timers", timers))
	first.latency("key to frame, the help comes or goes", "?")
	first.latency("key to frame, written to the journal first", "+")
	fmt.Printf("resident memory: %s\n", first.resident())
	first.stop()

	// Going on with a run: nothing is planned any more.
	var took []time.Duration
	for range starts {
		begun := time.Now()
		s, err := open(state, "cook", os.Args[2])
		if err != nil {
			return err
		}
		s.wait(" help ")
		took = append(took, time.Since(begun))
		s.stop()
	}
	slices.Sort(took)
	fmt.Printf("start to first frame: median %v, greatest %v\n", round(took[len(took)/2]), round(took[len(took)-1]))
	return nil
}

func round(d time.Duration) time.Duration { return d.Round(100 * time.Microsecond) }

// screen is the program on its terminal.
type screen struct {
	cmd *exec.Cmd
	tty *os.File

	mu   sync.Mutex
	n    int
	all  bytes.Buffer
	gone bool
	news chan struct{}
}

func open(state string, args ...string) (*screen, error) {
	s := &screen{cmd: exec.Command(os.Args[1], args...), news: make(chan struct{}, 1)}
	s.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "COLORTERM=truecolor", "LC_ALL=C.UTF-8", "XDG_STATE_HOME="+filepath.Join(state))
	var err error
	if s.tty, err = pty.StartWithSize(s.cmd, &pty.Winsize{Rows: height, Cols: width}); err != nil {
		return nil, err
	}
	go s.read()
	return s, nil
}

func (s *screen) read() {
	buf := make([]byte, 1<<16)
	for {
		n, err := s.tty.Read(buf)
		s.mu.Lock()
		s.n += n
		s.all.Write(buf[:n])
		s.gone = err != nil
		s.mu.Unlock()
		select {
		case s.news <- struct{}{}:
		default:
		}
		if err != nil {
			return
		}
	}
}

func (s *screen) bytes() int {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.n
}

// wait waits for a text in all that was written; false where the program ended first.
func (s *screen) wait(text string) bool {
	for {
		s.mu.Lock()
		found, gone := strings.Contains(s.all.String(), text), s.gone
		s.mu.Unlock()
		if found || gone {
			return found
		}
		<-s.news
	}
}

func (s *screen) press(keys string) { _, _ = s.tty.WriteString(keys) }

// latency measures from a key to the next output. Between two keys it waits until the
// screen is quiet, and a part of a second, so that keys do not fall in with the
// screen's own rhythm. What a key writes is shown only when the journal has it, so the
// next output is that.
func (s *screen) latency(what, key string) {
	var took []time.Duration
	for i := range keys {
		time.Sleep(between + time.Duration(i*37%100)*time.Millisecond)
		for { // a frame of its own is due each second: keep clear of it
			if ms := time.Now().Nanosecond() / 1e6; ms > 150 && ms < 800 {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		select {
		case <-s.news:
		default:
		}
		begun := time.Now()
		s.press(key)
		<-s.news
		took = append(took, time.Since(begun))
	}
	slices.Sort(took)
	fmt.Printf("%s: median %v, of ten nine within %v\n", what, round(took[keys/2]), round(took[keys*9/10]))
}

// cpu prints how much of a core the program takes, as a mean over a minute.
func (s *screen) cpu(what string) {
	a, begun := s.used(), time.Now()
	time.Sleep(idle)
	used := s.used() - a
	fmt.Printf("processor, %s: %.2f %% of a core\n", what, 100*used.Seconds()/time.Since(begun).Seconds())
}

// used is the time that the program's threads were on a processor, the system's work
// for them included: the first field of /proc/PID/task/TID/schedstat, in nanoseconds
// (Documentation/scheduler/sched-stats of Linux). Threads of Go do not end.
func (s *screen) used() time.Duration {
	var sum time.Duration
	files, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/schedstat", s.cmd.Process.Pid))
	for _, f := range files {
		data, err := os.ReadFile(f)
		if fields := strings.Fields(string(data)); err == nil && len(fields) > 0 {
			n, _ := strconv.ParseInt(fields[0], 10, 64)
			sum += time.Duration(n)
		}
	}
	return sum
}

func (s *screen) resident() string {
	data, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	for line := range strings.Lines(string(data)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			return strings.TrimSpace(rest)
		}
	}
	return "unknown"
}

func (s *screen) stop() {
	_ = s.cmd.Process.Signal(os.Interrupt)
	_ = s.cmd.Wait()
	_ = s.tty.Close()
}
