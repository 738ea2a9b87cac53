package tui_test

import (
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// early is a screen of a dinner that begins in an hour.
func early(t *testing.T, sound tui.Sound) *tuitest.Screen {
	t.Helper()
	return tuitest.New(t, tuitest.Config{Width: 80, Height: 24, Now: tuitest.At(15, 0), Sound: sound})
}

// sounded are the rings and volumes so far, in short words.
func sounded(s *tuitest.Screen) []string {
	var out []string
	for _, e := range s.Effects {
		switch e.(type) {
		case tui.Ring, tui.SetVolume:
			out = append(out, describe(e))
		}
	}
	return out
}

func TestAsksWhetherItIsHeard(t *testing.T) {
	t.Parallel()
	const question = "Can you hear this over the hood?"
	s := early(t, tui.Sound{Volume: 80, Ask: true})
	want(t, "at the start", sounded(s), []string{"tui.Ring{look 0}"})
	if !strings.Contains(s.Frame(), question) {
		t.Fatalf("does not ask:\n%s", s.Frame())
	}
	s.Keys("b b b")
	want(t, "louder and louder", sounded(s)[1:], []string{
		"tui.SetVolume{90}", "tui.Ring{look 0}", "tui.SetVolume{100}", "tui.Ring{look 0}", "tui.SetVolume{100}", "tui.Ring{look 0}"})
	if !strings.Contains(s.Frame(), "as loud as it gets") {
		t.Errorf("does not say that it cannot be louder:\n%s", s.Frame())
	}
	s.Keys("esc")
	if strings.Contains(s.Frame(), question) {
		t.Errorf("asks on after another key:\n%s", s.Frame())
	}
	s = early(t, tui.Sound{Volume: 80, Ask: true})
	s.Turn(tui.HearAskFor)
	s.Turn(2 * time.Second)
	if strings.Contains(s.Frame(), question) {
		t.Errorf("asks on after the first minute:\n%s", s.Frame())
	}
}

// TestAsksOnlyAtTheBeginning: not where something is due, nor where something was
// told already, nor where nothing rings.
func TestAsksOnlyAtTheBeginning(t *testing.T) {
	t.Parallel()
	at := tuitest.At(15, 0)
	for _, tt := range []struct {
		name string
		c    tuitest.Config
		want []string
	}{
		{"nothing-due", tuitest.Config{Now: at}, []string{"tui.Ring{look 0}"}},
		{"due", tuitest.Config{Now: tuitest.At(16, 10)}, []string{"tui.Ring{act 0}"}},
		{"gone-on-with", tuitest.Config{Now: at, Events: []run.Event{{Kind: run.Noted, Text: "candles", At: at, Noted: at}}}, nil},
		{"muted", tuitest.Config{Now: at, Sound: tui.Sound{Muted: true}}, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			tt.c.Width, tt.c.Height, tt.c.Sound.Ask = 80, 24, true
			s := tuitest.New(t, tt.c)
			s.Turn(time.Second)
			want(t, "rings", sounded(s), tt.want)
		})
	}
}

// TestTitleSaysWhenNothingIsHeard: silence, a run without sounds, a computer without
// a loudspeaker.
func TestTitleSaysWhenNothingIsHeard(t *testing.T) {
	t.Parallel()
	title := func(s *tuitest.Screen) string { line, _, _ := strings.Cut(s.Frame(), "\n"); return line }
	s := early(t, tui.Sound{Volume: 80, Muted: true})
	if !strings.Contains(title(s), "sound off") {
		t.Errorf("muted: %q", title(s))
	}
	s.Keys("b")
	want(t, "muted and louder", sounded(s), []string(nil))
	s = early(t, tui.Sound{Volume: 80})
	s.Send(tui.BeatMsg{Instants: tui.Instants{At: s.Now, Real: s.Real}, Speed: 1, Soundless: true})
	if !strings.Contains(title(s), "no sound") {
		t.Errorf("without a loudspeaker: %q", title(s))
	}
	s.Beat()
	if strings.Contains(title(s), "no sound") {
		t.Errorf("the loudspeaker is back: %q", title(s))
	}
	s.Keys("s")
	if !strings.Contains(title(s), "quiet 5:00") && !strings.Contains(title(s), "quiet 5 min") {
		t.Errorf("silence: %q", title(s))
	}
}

// TestUnconfirmedRingsOn: what nobody answered is assumed after five minutes, and
// rings on, more seldom.
func TestUnconfirmedRingsOn(t *testing.T) {
	t.Parallel()
	s := tuitest.New(t, tuitest.Config{Width: 80, Height: 24, Now: tuitest.At(16, 11)})
	s.TurnTo(tuitest.At(16, 17))
	if len(s.Model.Moment().Unconfirmed) == 0 {
		t.Fatal("nothing is unconfirmed")
	}
	before := len(rings(s))
	s.TurnTo(tuitest.At(16, 24))
	if n := len(rings(s)) - before; n == 0 {
		t.Error("nothing rings for what nobody answered")
	}
	s.Keys("a")
	before = len(rings(s))
	s.TurnTo(tuitest.At(16, 24).Add(50 * time.Second)) // before the next thing is due
	want(t, "rings after all as planned", len(rings(s))-before, 0)
}
