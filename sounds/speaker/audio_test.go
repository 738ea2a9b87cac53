//go:build audio && linux

package speaker_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"os"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/soundtest"
	"example.org/kettledrum/sounds/speaker"
)

// These tests play through a real PulseAudio and listen to what comes out. They need
// pulseaudio and pulseaudio-utils, and run one after the other: they share two cores
// with a server that plays in real time.

// Bounds. The first four are what a cook may count on, not what was measured.
const (
	pitchWithin = 0.03
	onsetWithin = 20 * time.Millisecond
	firstWithin = 150 * time.Millisecond // from the cue to its first sample
	loudWithin  = 2.0                    // dB
	noClick     = -60                    // dB above 10 kHz
	trials      = 200
)

// actor is the variable that makes the test binary be a program that plays.
const actor = "KETTLEDRUM_TEST_PLAYER"

func TestMain(m *testing.M) {
	if os.Getenv(actor) != "" {
		for range 2 {
			_, _ = speaker.Play(context.Background(), speaker.Ways(), bank.PCM(loud(run.Danger)))
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// take is one motif as it came out.
type take struct {
	all   []float64 // with silence before and after
	motif []float64 // from its first sample, as long as it is
	first time.Duration
}

// quiet is what counts as no sound: three steps of 16 bits.
const quiet = 3.0 / 32768

// play rings a sound and returns what was recorded.
func play(t *testing.T, s *speaker.Speaker, r *recorder, x sounds.Sound) take {
	t.Helper()
	length := len(bank.PCM(x))
	asked, at := r.length(), time.Now()
	s.Ring(x)
	const after = sounds.Rate * 7 / 10
	all := r.until(asked + length + after)[max(0, asked-after/2):]
	begins := slices.IndexFunc(all, func(v float64) bool { return math.Abs(v) > quiet })
	if begins < 0 || begins+length > len(all) {
		t.Fatalf("%v is not in the recording", x.Class)
	}
	// When it arrived here: an upper bound of when it came out.
	return take{all, all[begins : begins+length], r.arrived(max(0, asked-after/2) + begins).Sub(at)}
}

// TestWhatComesOut: pitch, rhythm, delay, loudness, no clipping, no clicks, and the
// rhythm found in noise, of every motif as the sound server plays it.
func TestWhatComesOut(t *testing.T) {
	srv := startServer(t)
	r, log := srv.record(), new(book)
	s := speaker.New(bank, []speaker.Way{speaker.Pulse{Env: srv.env}}, log.logger())
	defer s.Close()
	var firsts []time.Duration
	for _, m := range sounds.Motifs() {
		x := play(t, s, r, loud(m.Class))
		firsts = append(firsts, x.first)
		t.Run(m.Class.String(), func(t *testing.T) {
			rhythm(t, m, x)
			pitches(t, m, x)
			got := sounds.Loudness(sounds.Repeat(x.motif))
			t.Logf("%.2f LUFS, wanted %.1f", got, m.Loudness)
			if math.Abs(got-m.Loudness) > loudWithin {
				t.Errorf("%.1f LUFS, want %.1f", got, m.Loudness)
			}
			clean(t, x)
			if tail := x.all[len(x.all)-sounds.Rate/10:]; soundtest.RMS(tail) > quiet {
				t.Errorf("it does not end")
			}
			soundtest.TellApart(t, m, x.motif, trials)
		})
		t.Run(m.Class.String()+"-loudest", func(t *testing.T) {
			x := play(t, s, r, sounds.Sound{Class: m.Class, Rise: sounds.MaxRise, Volume: sounds.FullVolume})
			firsts = append(firsts, x.first)
			clean(t, x)
		})
	}
	slices.Sort(firsts)
	t.Logf("first samples after at most %v", firsts)
	if median := firsts[len(firsts)/2]; median > firstWithin {
		t.Errorf("the first sample comes after %v, want %v", median, firstWithin)
	}
	if got := log.lines(); got[0] != "" {
		t.Errorf("the log is %q, want nothing", got)
	}
}

func rhythm(t *testing.T, m sounds.Motif, x take) {
	t.Helper()
	got, want := soundtest.Onsets(x.all), m.Score.Onsets()
	if len(got) != len(want) {
		t.Errorf("%d pulses at %v, want %d", len(got), got, len(want))
		return
	}
	worst := time.Duration(0)
	for i := range got {
		worst = max(worst, ((got[i] - got[0]) - (want[i] - want[0])).Abs())
	}
	t.Logf("onsets within %v", worst)
	if worst > onsetWithin {
		t.Errorf("an onset is off by %v, want %v at most", worst, onsetWithin)
	}
}

func pitches(t *testing.T, m sounds.Motif, x take) {
	t.Helper()
	worst := 0.0
	for i, p := range m.Score.Pulses {
		from := int(p.At.Seconds() * sounds.Rate)
		to := min(len(x.motif), from+int(p.Length.Seconds()*sounds.Rate))
		got := soundtest.Pitch(x.motif[from:to], 150, 1000)
		worst = max(worst, math.Abs(got/p.Pitch-1))
		if math.Abs(got/p.Pitch-1) > pitchWithin {
			t.Errorf("pulse %d has %.1f Hz, want %.1f", i+1, got, p.Pitch)
		}
	}
	t.Logf("pitches within %.2f %%", 100*worst)
}

// clean holds that nothing clips and nothing clicks.
func clean(t *testing.T, x take) {
	t.Helper()
	peak := 0.0
	for _, v := range x.all {
		peak = max(peak, math.Abs(v))
	}
	click := soundtest.Click(x.all)
	t.Logf("peak %.1f dBFS, %.0f dB above 10 kHz", 20*math.Log10(peak), click)
	if peak > 32766.0/32768 {
		t.Errorf("it clips")
	}
	if click > noClick {
		t.Errorf("%.0f dB above 10 kHz, want %d at most: it clicks", click, noClick)
	}
}

// level returns how many goroutines there are once a test's own have ended.
func level(t *testing.T, before int) {
	t.Helper()
	eventually(t, "goroutines are as many as before", func() bool { return runtime.NumGoroutine() <= before })
}

// TestServerComesAndGoes: killed in the middle of a sound, absent, hanging, without a
// device, and back again: each is logged once, nothing is left over, and the next
// sound after it is heard.
func TestServerComesAndGoes(t *testing.T) {
	srv := startServer(t)
	before := runtime.NumGoroutine()
	log := new(book)
	s := speaker.New(bank, []speaker.Way{speaker.Pulse{Env: srv.env}}, log.logger())
	heard := func(what string) {
		t.Helper()
		eventually(t, what, func() bool { s.Ring(loud(run.Note)); return s.Trouble() == nil })
		eventually(t, what+", and ends", func() bool { return !srv.playing() }) // nothing more rings
	}
	logged := func(what string) {
		t.Helper()
		eventually(t, what, func() bool { return strings.Contains(strings.Join(log.lines(), "\n"), what) })
	}
	fails := func(what string, with error) {
		t.Helper()
		for range 3 { // more than once, for it is to be logged once
			s.Ring(loud(run.Look))
			eventually(t, what, func() bool { return errors.Is(s.Trouble(), with) })
		}
	}
	s.Ring(loud(run.Danger))
	eventually(t, "it plays", srv.playing)
	srv.kill()
	logged("the server went away")
	fails("no server", speaker.ErrAbsent)
	srv.start()
	heard("a new server plays")

	srv.signal(syscall.SIGSTOP)
	fails("the server hangs", speaker.ErrHangs)
	srv.signal(syscall.SIGCONT)
	heard("it goes on")

	s.Ring(loud(run.Danger))
	eventually(t, "it plays", srv.playing)
	if err := srv.pactl("unload-module", "module-null-sink"); err != nil {
		t.Fatal(err)
	}
	logged("the device went away")
	fails("no device", speaker.ErrAbsent)
	if err := srv.pactl("load-module", "module-null-sink", "sink_name=null", "norewinds=1"); err != nil {
		t.Fatal(err)
	}
	heard("a device is back")
	s.Close()
	level(t, before)
	for _, l := range log.lines() {
		t.Log(l)
	}
	if got := strings.Count(strings.Join(log.lines(), "\n"), "works again"); got != 3 {
		t.Errorf("%d recoveries are logged, want 3", got)
	}
	if got := strings.Count(strings.Join(log.lines(), "\n"), "no sound"); got > 6 {
		t.Errorf("%d troubles are logged, want one for each", got)
	}
}

// TestGoroutinesStayFlat: many sounds leave nothing behind, whether they are heard or
// not.
func TestGoroutinesStayFlat(t *testing.T) {
	srv := startServer(t)
	pulse := speaker.Pulse{Env: srv.env}
	before := runtime.NumGoroutine()
	for i := range 12 {
		if i == 6 {
			srv.kill()
		}
		err := pulse.Play(context.Background(), bank.PCM(loud(run.Note)))
		if (err != nil) != (i >= 6) {
			t.Errorf("sound %d: %v", i, err)
		}
	}
	level(t, before)
}

// TestNoByteOnTheTerminal: a program that plays by all the ways of the system prints
// nothing, with a server, without one, with one that hangs and one that is killed.
func TestNoByteOnTheTerminal(t *testing.T) {
	for _, tt := range []struct {
		name string
		do   func(*server)
	}{
		{"plays", func(*server) {}},
		{"absent", (*server).kill},
		{"hangs", func(s *server) { s.signal(syscall.SIGSTOP) }}, // killed as it is, in the end
	} {
		t.Run(tt.name, func(t *testing.T) {
			srv := startServer(t)
			tt.do(srv)
			var out bytes.Buffer
			c := self(t, srv, tt.name)
			c.Stdout, c.Stderr = &out, &out
			if err := c.Run(); err != nil || out.Len() > 0 {
				t.Errorf("%v, and it printed %q", err, out.String())
			}
			left, err := os.ReadDir(srv.dir)
			for _, f := range left {
				if strings.HasSuffix(f.Name(), ".wav") || err != nil {
					t.Errorf("left behind: %v, %v", f.Name(), err)
				}
			}
		})
	}
	t.Run("killed", func(t *testing.T) {
		srv := startServer(t)
		var out bytes.Buffer
		c := self(t, srv, "killed")
		c.Stdout, c.Stderr = &out, &out
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		eventually(t, "it plays", srv.playing)
		srv.kill()
		if err := c.Wait(); err != nil || out.Len() > 0 {
			t.Errorf("%v, and it printed %q", err, out.String())
		}
	})
}

// TestCommand: a player of the system is heard as well.
func TestCommand(t *testing.T) {
	srv := startServer(t)
	t.Setenv("XDG_RUNTIME_DIR", srv.dir)
	r, log := srv.record(), new(book)
	s := speaker.New(bank, []speaker.Way{speaker.Command{Program: "paplay"}}, log.logger())
	defer s.Close()
	m, _ := sounds.Of(run.LateCue)
	x := play(t, s, r, loud(m.Class))
	rhythm(t, m, x)
	clean(t, x)
	t.Logf("first sample after %v at most", x.first)
}
