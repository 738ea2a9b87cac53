package tui_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"pgregory.net/rapid"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
	"example.org/kettledrum/tui/tuitest"
)

// fit fails unless the frame has exactly the height in lines, each exactly as
// wide as the screen in cells.
func fit(t interface {
	Helper()
	Fatalf(string, ...any)
}, m tui.Model, w, h int) {
	t.Helper()
	frame := tui.View(m)
	lines := strings.Split(frame, "\n")
	if len(lines) != h {
		t.Fatalf("%d×%d: %d lines in:\n%s", w, h, len(lines), ansi.Strip(frame))
	}
	for i, l := range lines {
		if got := ansi.StringWidth(l); got != w {
			t.Fatalf("%d×%d: line %d is %d cells wide: %q", w, h, i+1, got, ansi.Strip(l))
		}
	}
}

// hostile is a run of the dinner with names that are hard to show.
func hostile(t *testing.T, st tuitest.Stage, c tuitest.Config) *tuitest.Screen {
	p, table := tuitest.Dinner()
	p.Title = "Dîner 晩ごはん \x1b[31m\x07\u202e" + strings.Repeat("long ", 60)
	for i := range p.Steps {
		p.Steps[i].Do = []string{"切る 🥕🔪 " + strings.Repeat("大根", 30), "a\tb\nc\x1b]0;x\x07", "", strings.Repeat("x", 200), "e\u0301te\u0301 👩‍🍳"}[i%5]
	}
	state, err := run.Fold(p, append(tuitest.Opening(p, table), st.Events...))
	if err != nil {
		t.Fatal(err)
	}
	c.Now = st.Now
	return tuitest.NewOf(t, c, state)
}

// TestFrameFits draws every size up to 250×70. Stages of the dinner, modes,
// looks and names take turns, once for all sizes and, with other turns, for a
// part of them.
func TestFrameFits(t *testing.T) {
	t.Parallel()
	var screens []*tuitest.Screen
	for i, st := range tuitest.Stages() {
		for j, th := range []*theme.Theme{theme.Bare(false), theme.Bare(true), theme.New(termenv.TrueColor, true, false)} {
			c := tuitest.Config{Width: 80, Height: 24, Theme: th, Rehearsal: (i+j)%2 == 0}
			screens = append(screens, at(t, st, c), hostile(t, st, c))
		}
	}
	for range 4 {
		screens = append(screens, debriefed(t, 80, 24, nil), walking(t, 80, 24, nil))
	}
	for round := range 3 {
		t.Run(fmt.Sprint("round-", round+1), func(t *testing.T) {
			t.Parallel()
			turns := rand.New(rand.NewPCG(1, uint64(round)))
			for w := 1; w <= 250; w += 1 + round {
				for h := 1; h <= 70; h += 1 + round {
					s := screens[turns.IntN(len(screens))]
					m, _ := tui.Update(s.Model, tui.SizeMsg{Width: w, Height: h})
					fit(t, m.With(tui.Modes()[turns.IntN(len(tui.Modes()))]), w, h)
				}
			}
		})
	}
}

// TestAnyKeysFit presses keys at random at random sizes while time passes: the
// screen never panics and the frame always fits.
func TestAnyKeysFit(t *testing.T) {
	t.Parallel()
	var keys []string
	for _, b := range tui.Bindings() {
		keys = append(keys, b.Keys...)
	}
	keys = append(keys, "1", "7", ":", "é", "backspace", "ctrl+u", "ctrl+w", "f5")
	rapid.Check(t, func(r *rapid.T) {
		st := rapid.SampledFrom(tuitest.Stages()).Draw(r, "stage")
		s := at(t, st, tuitest.Config{Width: 80, Height: 24, Rehearsal: rapid.Bool().Draw(r, "rehearsal")})
		switch rapid.IntRange(0, 5).Draw(r, "what is shown") {
		case 0:
			s = walking(t, 80, 24, nil)
		case 1:
			s = debriefed(t, 80, 24, nil)
		}
		for range rapid.IntRange(1, 40).Draw(r, "presses") {
			switch rapid.IntRange(0, 5).Draw(r, "what") {
			case 0:
				s.Turn(time.Duration(rapid.IntRange(0, 900).Draw(r, "seconds")) * time.Second)
			case 1:
				s.Send(tui.SizeMsg{Width: rapid.IntRange(1, 160).Draw(r, "width"), Height: rapid.IntRange(1, 60).Draw(r, "height")})
			default:
				s.Press(rapid.SampledFrom(keys).Draw(r, "key"))
			}
			w, h := s.Model.Size()
			fit(r, s.Model, w, h)
		}
	})
}

func BenchmarkView80x24(b *testing.B)  { benchmarkView(b, 80, 24) }
func BenchmarkView200x60(b *testing.B) { benchmarkView(b, 200, 60) }

func benchmarkView(b *testing.B, w, h int) {
	s := at(b, stage("three-at-once"), tuitest.Config{Width: w, Height: h, Theme: theme.New(termenv.TrueColor, true, false)})
	b.ReportAllocs()
	for b.Loop() {
		_ = tui.View(s.Model)
	}
}

func BenchmarkBeat(b *testing.B) {
	s := at(b, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24})
	b.ReportAllocs()
	for b.Loop() {
		s.Turn(time.Millisecond)
	}
}

// TestASecondChangesDigitsAndBarsOnly: what is read at a glance stays where it is.
func TestASecondChangesDigitsAndBarsOnly(t *testing.T) {
	t.Parallel()
	for _, size := range sizes {
		s := at(t, stage("three-at-once"), tuitest.Config{Width: size[0], Height: size[1]})
		before := []rune(s.Frame())
		s.Turn(time.Second)
		after := []rune(s.Frame())
		if len(before) != len(after) {
			t.Fatalf("%v: the frame is %d signs long, then %d", size, len(before), len(after))
		}
		changed := 0
		for i := range before {
			if before[i] == after[i] {
				continue
			}
			changed++
			if !strings.ContainsRune("0123456789━╸─", after[i]) {
				t.Errorf("%v: %q became %q", size, before[i], after[i])
			}
		}
		if changed == 0 || changed > 12 {
			t.Errorf("%v: %d signs changed in a second, want some and at most 12:\n%s", size, changed, string(after))
		}
	}
}

// TestFrameAllocates no more than now, with some room: a frame is drawn after
// every message.
func TestFrameAllocates(t *testing.T) {
	s := at(t, stage("three-at-once"), tuitest.Config{Width: 80, Height: 24, Theme: theme.New(termenv.TrueColor, true, false)})
	if n := testing.AllocsPerRun(20, func() { _ = tui.View(s.Model) }); n > 400 {
		t.Errorf("a frame of 80×24 allocates %v times, want at most 400", n)
	}
}
