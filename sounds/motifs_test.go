package sounds_test

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/soundtest"
)

var bank = sounds.Render()

// heard are the samples of a motif as it first rings at full volume.
func heard(m sounds.Motif) []float64 {
	return soundtest.Floats(bank.PCM(sounds.Sound{Class: m.Class, Volume: sounds.FullVolume}))
}

// each runs a test for each motif.
func each(t *testing.T, f func(*testing.T, sounds.Motif)) {
	t.Helper()
	for _, m := range sounds.Motifs() {
		t.Run(m.Class.String(), func(t *testing.T) { t.Parallel(); f(t, m) })
	}
}

func TestEveryClassHasAMotif(t *testing.T) {
	t.Parallel()
	for c := run.Danger; c <= run.Note; c++ {
		m, ok := sounds.Of(c)
		if !ok || m.Meaning == "" || m.Heard == "" {
			t.Errorf("%v has no motif with a meaning and words for how it sounds", c)
		}
	}
	if _, ok := sounds.Of(run.Note + 1); ok {
		t.Error("a class that is none has a motif")
	}
}

// TestMeter: a tone of 997 Hz at 0 dBFS in one channel reads -3.01 LUFS, one at -20
// dBFS -23.01. Source: ITU-R BS.1770-4, Annex 1, from memory. The gate: a second of
// the tone in three of silence reads the same, for the silence does not count.
func TestMeter(t *testing.T) {
	t.Parallel()
	tone := func(dbfs float64, seconds int) []float64 {
		x := make([]float64, seconds*sounds.Rate)
		for i := range x {
			x[i] = math.Pow(10, dbfs/20) * math.Sin(2*math.Pi*997*float64(i)/sounds.Rate)
		}
		return x
	}
	for _, tt := range []struct {
		name string
		x    []float64
		want float64
		off  float64
	}{
		{"full-scale", tone(0, 5), -3.01, 0.05},
		{"20-below", tone(-20, 5), -23.01, 0.05},
		{"40-below", tone(-40, 5), -43.01, 0.05},
		{"silence-around", append(append(make([]float64, 2*sounds.Rate), tone(-20, 10)...), make([]float64, 2*sounds.Rate)...), -23.01, 0.3},
		{"shorter-than-a-block", tone(0, 1)[:1000], math.Inf(-1), 0},
		{"silence", make([]float64, sounds.Rate), math.Inf(-1), 0},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			got := sounds.Loudness(tt.x)
			if got != tt.want && !(math.Abs(got-tt.want) <= tt.off) {
				t.Errorf("Loudness = %.2f LUFS, want %.2f", got, tt.want)
			}
		})
	}
}

func TestLoudness(t *testing.T) {
	t.Parallel()
	each(t, func(t *testing.T, m sounds.Motif) {
		if got := sounds.Loudness(sounds.Repeat(heard(m))); math.Abs(got-m.Loudness) > 0.1 {
			t.Errorf("%.1f LUFS, want %.1f", got, m.Loudness)
		}
	})
}

// TestRise: each step is as much louder as it says, half the volume is ten decibels
// less, and nothing clips at the loudest.
func TestRise(t *testing.T) {
	t.Parallel()
	each(t, func(t *testing.T, m sounds.Motif) {
		loud := func(rise, volume int) float64 {
			return soundtest.RMS(soundtest.Floats(bank.PCM(sounds.Sound{Class: m.Class, Rise: rise, Volume: volume})))
		}
		db := func(a, b float64) float64 { return 20 * math.Log10(a/b) }
		for rise := 1; rise <= sounds.MaxRise; rise++ {
			if got := db(loud(rise, 100), loud(rise-1, 100)); math.Abs(got-sounds.RiseStep) > 0.05 {
				t.Errorf("rise %d is %.2f dB louder, want %v", rise, got, sounds.RiseStep)
			}
		}
		if loud(sounds.MaxRise+1, 100) != loud(sounds.MaxRise, 100) {
			t.Error("it rises beyond the ceiling")
		}
		if got := db(loud(0, 50), loud(0, 100)); math.Abs(got+10) > 0.2 {
			t.Errorf("half the volume is %.2f dB, want -10", got)
		}
		if pcm := bank.PCM(sounds.Sound{Class: m.Class, Volume: 0}); pcm != nil {
			t.Errorf("volume 0 has %d samples", len(pcm))
		}
		peak := slices.Max(bank.PCM(sounds.Sound{Class: m.Class, Rise: sounds.MaxRise, Volume: 100}))
		if got := db(float64(peak), math.MaxInt16); got > -1 {
			t.Errorf("the greatest sample at the loudest is %.2f dB below full scale, want 1", -got)
		}
	})
}

// TestToldApart: no two motifs have as many pulses, and no rhythm could be taken for
// a part of another.
func TestToldApart(t *testing.T) {
	t.Parallel()
	ms := sounds.Motifs()
	for i, a := range ms {
		for _, b := range ms[i+1:] {
			if len(a.Score.Pulses) <= len(b.Score.Pulses) {
				t.Errorf("%v has %d pulses, %v %d: the more urgent has more", a.Class, len(a.Score.Pulses), b.Class, len(b.Score.Pulses))
			}
			if len(b.Score.Pulses) == 1 {
				continue // has no rhythm: only the count tells it
			}
			got := soundtest.Apart(soundtest.Gaps(a.Score.Onsets()), soundtest.Gaps(b.Score.Onsets()))
			t.Logf("%v and %v: %v", a.Class, b.Class, got)
			if got < soundtest.Margin {
				t.Errorf("the rhythms of %v and %v are %v apart, want %v", a.Class, b.Class, got, soundtest.Margin)
			}
		}
	}
}

// TestUrgency: more urgent is faster, higher and louder. Source: IEC 60601-1-8, from
// memory, as are the numbers of TestHarmonics.
func TestUrgency(t *testing.T) {
	t.Parallel()
	ms := sounds.Motifs()
	rate := func(m sounds.Motif) float64 { return float64(len(m.Score.Pulses)) / m.Score.Length().Seconds() }
	pitch := func(m sounds.Motif) (sum float64) {
		for _, p := range m.Score.Pulses {
			sum += p.Pitch / float64(len(m.Score.Pulses))
		}
		return sum
	}
	for i := 1; i < len(ms); i++ {
		a, b := ms[i-1], ms[i]
		if len(b.Score.Pulses) > 1 && rate(a) <= rate(b) {
			t.Errorf("%v has %.1f pulses a second, %v %.1f", a.Class, rate(a), b.Class, rate(b))
		}
		if pitch(a) <= pitch(b) {
			t.Errorf("%v lies at %.0f Hz, %v at %.0f", a.Class, pitch(a), b.Class, pitch(b))
		}
		if a.Loudness < b.Loudness+2 {
			t.Errorf("%v is to be at %.1f LUFS, %v at %.1f: want two decibels between them", a.Class, a.Loudness, b.Class, b.Loudness)
		}
	}
}

// TestHarmonics: pulses of 150 to 1000 Hz, at least four harmonics between 300 and
// 4000 Hz within 15 dB.
func TestHarmonics(t *testing.T) {
	t.Parallel()
	each(t, func(t *testing.T, m sounds.Motif) {
		x := heard(m)
		for i, p := range m.Score.Pulses {
			if p.Pitch < 150 || p.Pitch > 1000 {
				t.Errorf("pulse %d has %.0f Hz, want 150 to 1000", i+1, p.Pitch)
			}
			from := int(p.At.Seconds() * sounds.Rate)
			strong := 0
			for k, level := range soundtest.Harmonics(x[from:min(len(x), from+int(p.Length.Seconds()*sounds.Rate))], p.Pitch, 6) {
				if f := float64(k+1) * p.Pitch; f >= 300 && f <= 4000 && level >= -15 {
					strong++
				}
			}
			if strong < 4 {
				t.Errorf("pulse %d has %d strong harmonics, want 4", i+1, strong)
			}
		}
	})
}

// noClick is what a motif may have above 10 kHz: 60 dB below itself.
const noClick = -60

func TestNoClicks(t *testing.T) {
	t.Parallel()
	each(t, func(t *testing.T, m sounds.Motif) {
		x := soundtest.Pad(heard(m), 100*time.Millisecond)
		got := soundtest.Click(x)
		t.Logf("%.0f dB above 10 kHz", got)
		if got > noClick {
			t.Errorf("%.0f dB above 10 kHz, want less than %d: it clicks", got, noClick)
		}
		// A hundredth of full scale, once, must be found.
		x[len(x)/2] += 0.01
		if got := soundtest.Click(x); got < noClick {
			t.Errorf("a click that is there is not found: %.0f dB", got)
		}
	})
}

// TestHeardInNoise is TellApart with fewer trials, on what was rendered; the test
// with a sound server does it on what was recorded.
func TestHeardInNoise(t *testing.T) {
	t.Parallel()
	each(t, func(t *testing.T, m sounds.Motif) { soundtest.TellApart(t, m, heard(m), 20) })
}

// TestNoiseAlone: in noise without a motif none is found, so that finding one means
// something; nor is one motif found for another.
func TestNoiseAlone(t *testing.T) {
	t.Parallel()
	found := 0
	for seed := range 20 {
		x := soundtest.Pink(rand.New(rand.NewPCG(uint64(seed), 99)), 2*sounds.Rate, 0.1)
		if m, ok := soundtest.Which(soundtest.Onsets(x), soundtest.Slack); ok {
			t.Logf("seed %d: %v", seed, m.Class)
			found++
		}
	}
	if found > 1 {
		t.Errorf("a motif is found in %d of 20 noises without one", found)
	}
}

func TestWAV(t *testing.T) {
	t.Parallel()
	pcm := bank.PCM(sounds.Sound{Class: run.Look, Volume: 100})
	w := sounds.WAV(pcm)
	if string(w[:4]) != "RIFF" || string(w[8:16]) != "WAVEfmt " || string(w[36:40]) != "data" {
		t.Fatalf("not a WAV file: %q", w[:44])
	}
	if got := int(binary.LittleEndian.Uint32(w[40:])); got != 2*len(pcm) || len(w) != 44+got || int(binary.LittleEndian.Uint32(w[4:])) != len(w)-8 {
		t.Errorf("%d bytes of samples in %d, want %d", got, len(w), 2*len(pcm))
	}
	if got := int16(binary.LittleEndian.Uint16(w[44+2*1000:])); got != pcm[1000] {
		t.Errorf("sample 1000 is %d, want %d", got, pcm[1000])
	}
}
