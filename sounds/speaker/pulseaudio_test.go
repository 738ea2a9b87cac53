//go:build audio && linux

package speaker_test

import (
	"io"
	"os"
	"os/exec"
	"sort"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"example.org/kettledrum/sounds"
)

// patience is after what time what does not come is a failure. It bounds no speed.
const patience = 20 * time.Second

// server is a real PulseAudio of its own with a sink that plays to nowhere.
type server struct {
	t   *testing.T
	dir string // its XDG_RUNTIME_DIR
	cmd *exec.Cmd
}

func startServer(t *testing.T) *server {
	t.Helper()
	s := &server{t: t, dir: t.TempDir()}
	if err := os.Chmod(s.dir, 0o700); err != nil {
		t.Fatal(err)
	}
	s.start()
	t.Cleanup(s.kill)
	return s
}

// start starts it, again where it was killed, and waits until it answers.
func (s *server) start() {
	s.t.Helper()
	s.cmd = exec.Command("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1",
		// Without norewinds the sink renders blocks of two seconds.
		"-L", "module-null-sink sink_name=null norewinds=1 rate=48000",
		"-L", "module-native-protocol-unix auth-anonymous=1")
	s.cmd.Env = s.environ()
	if err := s.cmd.Start(); err != nil {
		s.t.Fatalf("start pulseaudio: %v", err)
	}
	eventually(s.t, "pulseaudio answers", func() bool { return s.pactl("info") == nil })
}

func (s *server) environ() []string {
	out := []string{"XDG_RUNTIME_DIR=" + s.dir, "HOME=" + s.dir}
	for _, e := range os.Environ() {
		if !strings.HasPrefix(e, "PULSE_") && !strings.HasPrefix(e, "XDG_RUNTIME_DIR=") && !strings.HasPrefix(e, "HOME=") {
			out = append(out, e)
		}
	}
	return out
}

// env is the environment as a Pulse reads it.
func (s *server) env(name string) string {
	if name == "XDG_RUNTIME_DIR" || name == "HOME" {
		return s.dir
	}
	return ""
}

func (s *server) pactl(args ...string) error {
	c := exec.Command("pactl", args...)
	c.Env = s.environ()
	return c.Run()
}

// kill ends it as a crash does.
func (s *server) kill() {
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
}

func (s *server) signal(sig syscall.Signal) {
	s.t.Helper()
	if err := s.cmd.Process.Signal(sig); err != nil {
		s.t.Fatal(err)
	}
}

// playing reports whether the server has a stream that plays.
func (s *server) playing() bool {
	c := exec.Command("pactl", "list", "short", "sink-inputs")
	c.Env = s.environ()
	out, err := c.Output()
	return err == nil && len(strings.TrimSpace(string(out))) > 0
}

// recorder writes down what the sink plays.
type recorder struct {
	mu      sync.Mutex
	more    *sync.Cond
	samples []float64
	chunks  []chunk
	ended   bool
}

// chunk is when the samples up to an index had arrived.
type chunk struct {
	to int
	at time.Time
}

// arrived is when a sample had.
func (r *recorder) arrived(i int) time.Time {
	r.mu.Lock()
	defer r.mu.Unlock()
	k := sort.Search(len(r.chunks), func(k int) bool { return r.chunks[k].to > i })
	return r.chunks[k].at
}

// record starts to record; the recording runs when it returns.
func (s *server) record() *recorder {
	s.t.Helper()
	r := &recorder{}
	r.more = sync.NewCond(&r.mu)
	cmd := exec.Command("parec", "-d", "null.monitor", "--rate=48000", "--channels=1", "--format=s16le", "--raw", "--latency-msec=5")
	cmd.Env = s.environ()
	out, err := cmd.StdoutPipe()
	if err != nil {
		s.t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		s.t.Fatalf("start parec: %v", err)
	}
	done := make(chan struct{})
	go func() { defer close(done); r.read(out) }()
	s.t.Cleanup(func() { _ = cmd.Process.Kill(); <-done; _ = cmd.Wait() })
	r.until(sounds.Rate / 2)
	return r
}

func (r *recorder) read(in io.Reader) {
	buf, odd := make([]byte, 4096), []byte(nil)
	for {
		n, err := in.Read(buf)
		r.mu.Lock()
		data := append(odd, buf[:n]...)
		for ; len(data) > 1; data = data[2:] {
			r.samples = append(r.samples, float64(int16(uint16(data[0])|uint16(data[1])<<8))/32768)
		}
		odd = append([]byte(nil), data...)
		r.chunks = append(r.chunks, chunk{len(r.samples), time.Now()})
		r.ended = err != nil
		r.more.Broadcast()
		r.mu.Unlock()
		if err != nil {
			return
		}
	}
}

// length is how many samples there are.
func (r *recorder) length() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.samples)
}

// until waits for so many samples and returns all.
func (r *recorder) until(n int) []float64 {
	r.mu.Lock()
	defer r.mu.Unlock()
	for len(r.samples) < n && !r.ended {
		r.more.Wait()
	}
	return append([]float64(nil), r.samples...)
}

// eventually waits until something holds.
func eventually(t *testing.T, what string, holds func() bool) {
	t.Helper()
	give := time.NewTimer(patience)
	defer give.Stop()
	again := time.NewTicker(10 * time.Millisecond)
	defer again.Stop()
	for !holds() {
		select {
		case <-again.C:
		case <-give.C:
			t.Fatalf("never: %s", what)
		}
	}
}

// self is the test binary, started as another process.
func self(t *testing.T, s *server, what string) *exec.Cmd {
	t.Helper()
	path, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(path)
	c.Env = append(s.environ(), actor+"="+what, "TMPDIR="+s.dir)
	return c
}
