package tui_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/tuitest"
)

// recorded are the events of the Record effects so far, in short words.
func recorded(s *tuitest.Screen) []string {
	var out []string
	for _, e := range s.Effects {
		if _, ok := e.(tui.Record); ok {
			out = append(out, describe(e))
		}
	}
	return out
}

func rings(s *tuitest.Screen) []run.Class {
	var out []run.Class
	for _, e := range s.Effects {
		if r, ok := e.(tui.Ring); ok {
			out = append(out, r.Class)
		}
	}
	return out
}

func want(t *testing.T, what string, got, want any) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", what, diff)
	}
}

func normal(t *testing.T, name string) *tuitest.Screen {
	t.Helper()
	return at(t, stage(name), tuitest.Config{Width: 80, Height: 24})
}

func TestSpaceAnswersTheMostUrgentCue(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Turn(3 * time.Second)
	pressed := s.Now
	s.Press("space")
	want(t, "recorded", recorded(s), []string{"record(started pears/simmer)"})
	want(t, "when", s.Run.Told[0].At, pressed)
	want(t, "message", s.Model.Message(), "started")
	if strings.Contains(s.Frame(), "► NOW") {
		t.Errorf("the cue is answered and still there:\n%s", s.Frame())
	}
}

func TestSpaceOnlyActsOnWhatHasBeenShownForASecond(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Real = s.Real.Add(tui.ShownFor - time.Millisecond)
	s.Press("space")
	want(t, "recorded too early", recorded(s), []string(nil))
	if !strings.Contains(s.Model.Message(), "only just") {
		t.Errorf("message %q does not say why", s.Model.Message())
	}
	s.Real = s.Real.Add(tui.Repeat)
	s.Press("space")
	want(t, "recorded after", recorded(s), []string{"record(started pears/simmer)"})
}

func TestSpaceIgnoresRepeats(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Turn(3 * time.Second)
	s.Press("space")
	for range 20 { // held down: the keyboard repeats while the next cues come up
		s.Now, s.Real = s.Now.Add(3*time.Minute), s.Real.Add(tui.Repeat-time.Millisecond)
		s.Press("space")
	}
	want(t, "recorded", recorded(s), []string{"record(started pears/simmer)"})
}

func TestNothingIsDoneBeforeItIsWritten(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Deaf = true
	s.Keys("space")
	if !strings.Contains(s.Frame(), "► NOW   Simmer") {
		t.Errorf("shown as done before it was written:\n%s", s.Frame())
	}
	s.Keys("d")
	want(t, "recorded while writing", len(recorded(s)), 1)
	if !strings.Contains(s.Frame(), "then: d") {
		t.Errorf("nothing says that the key waits:\n%s", s.Frame())
	}
	s.Press("esc")
	s.Turn(2 * time.Second)
	if !strings.Contains(s.Frame(), "writing…") {
		t.Errorf("a slow write is not shown:\n%s", s.Frame())
	}
}

func TestAnErrorStaysUntilAKey(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Run.Fail = errors.New("no space left on device")
	s.Keys("space")
	for range 10 {
		s.Turn(30 * time.Second)
	}
	if !strings.Contains(s.Frame(), "not written: no space left on device") {
		t.Errorf("the error is gone:\n%s", s.Frame())
	}
	s.Press("esc")
	want(t, "message after a key", s.Model.Message(), "")
}

func TestAnOlderStateIsDropped(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	old := s.Run.State()
	s.Keys("space")
	s.Send(tui.TickedMsg{Instants: tui.Instants{At: s.Now, Real: s.Real}, State: old})
	want(t, "events", len(s.Model.State().Events), len(old.Events)+1)
}

func TestMoreTime(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once") // peeling the potatoes ends first
	s.Keys("+ + e")
	s.Type("12")
	s.Press("enter")
	s.Keys("down + +") // the last row: the timer, at 7:20 less some seconds
	want(t, "recorded", recorded(s), []string{
		"record(prolonged potatoes/peel 5m0s)", "record(prolonged potatoes/peel 5m0s)", "record(prolonged potatoes/peel 12m0s)",
		"record(acknowledged timer:13; timer tea 13m0s)", "record(acknowledged timer:18; timer tea 18m0s)",
	})
}

func TestQuickTimer(t *testing.T) {
	t.Parallel()
	s := normal(t, "going")
	s.Keys("t")
	s.Type("green tea 4")
	s.Keys("enter")
	want(t, "recorded", recorded(s), []string{"record(timer green tea 4m0s)"})
	s.TurnTo(s.Now.Add(5 * time.Minute))
	if c := s.Model.Moment().Cues; len(c) == 0 || !strings.HasPrefix(c[0].ID, "timer:") {
		t.Fatalf("the timer does not come up: %v", c)
	}
	s.Keys("space")
	if c := s.Model.Moment().Cues; len(c) > 0 && strings.HasPrefix(c[0].ID, "timer:") {
		t.Errorf("the timer does not stop")
	}
}

// A note is of the marked step, says so, and is read again where the step is opened.
func TestNote(t *testing.T) {
	t.Parallel()
	s := normal(t, "going")
	s.Keys("o")
	step := s.Model.Opened()
	s.Keys("N enter")
	want(t, "mode with nothing written", s.Model.Mode(), tui.Prompt)
	s.Type("more salt next time")
	s.Keys("enter")
	want(t, "recorded", recorded(s), []string{"record(note " + step + " more salt next time)"})
	want(t, "mode", s.Model.Mode(), tui.StepView)
	if v := s.Frame(); !strings.Contains(v, "more salt next time") {
		t.Errorf("the step does not show its note:\n%s", v)
	}
}

func TestPromptSaysWhatWouldBeRight(t *testing.T) {
	t.Parallel()
	s := normal(t, "going")
	s.Keys("t")
	s.Type("tea")
	s.Press("enter")
	want(t, "mode", s.Model.Mode(), tui.Prompt)
	if !strings.Contains(s.Model.Message(), "minutes at the end") {
		t.Errorf("message %q", s.Model.Message())
	}
	s.Press("ctrl+u")
	want(t, "typed", s.Model.Typed(), "")
	s.Press("esc")
	want(t, "mode after esc", s.Model.Mode(), tui.Main)
	want(t, "recorded", recorded(s), []string(nil))
}

func TestSkipAsksAndUndoTakesBack(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Keys("down x")
	if !strings.Contains(s.Model.Question(), "Simmer the pears") {
		t.Errorf("question %q", s.Model.Question())
	}
	s.Keys("n x y u")
	want(t, "recorded", recorded(s), []string{"record(skipped pears/simmer)", "record(undone)"})
	if msg := s.Model.Message(); !strings.Contains(msg, "Pears in wine, skipped") {
		t.Errorf("undo does not say what it took back: %q", msg)
	}
	if !strings.Contains(s.Frame(), "► NOW   Simmer") {
		t.Errorf("what was taken back is not there again:\n%s", s.Frame())
	}
}

func TestSelectedIsDone(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Keys("up up d") // from below: the timer, then the potatoes
	want(t, "recorded", recorded(s), []string{"record(finished potatoes/peel)"})
}

func TestQuitAsksAndSaysHowToGoOn(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Keys("q")
	if frame := s.Frame(); !strings.Contains(frame, "kettledrum cook garden.yaml") {
		t.Errorf("the way back is not told:\n%s", frame)
	}
	s.Keys("esc")
	want(t, "mode after esc", s.Model.Mode(), tui.Main)
	s.Keys("ctrl+c ctrl+c")
	if last := s.Effects[len(s.Effects)-1]; last != (tui.Quit{}) {
		t.Errorf("the last effect is %#v, want Quit", last)
	}
	one := at(t, tuitest.Stage{Name: "one", Now: tuitest.At(15, 55), Events: []run.Event{
		{Kind: run.TimerSet, Text: "eggs", By: 9 * time.Minute, At: tuitest.At(15, 54), Noted: tuitest.At(15, 54)}}}, tuitest.Config{Width: 80, Height: 24})
	one.Keys("q")
	want(t, "question", one.Model.Question(), "Quit while a step or timer goes on: eggs?")
	idle := normal(t, "before")
	idle.Keys("q")
	if last := idle.Effects[len(idle.Effects)-1]; last != (tui.Quit{}) {
		t.Errorf("with nothing going: the last effect is %#v, want Quit", last)
	}
}

// A dinner that runs past midnight is not over for the day.
func TestQuitAsksBeforeMidnight(t *testing.T) {
	t.Parallel()
	timer := func(at time.Time) []run.Event {
		return []run.Event{{Kind: run.TimerSet, Text: "eggs", By: 9 * time.Minute, At: at, Noted: at}}
	}
	for _, row := range []struct {
		name string
		east time.Duration // of the dinner's zone
		now  time.Time
		asks bool
	}{
		{"in the afternoon", 0, tuitest.At(15, 55), true},
		{"at five to midnight, the next step at ten past", 8 * time.Hour, tuitest.At(15, 55), true},
		{"a timer on the day before", 0, tuitest.At(-3, 55), true},
	} {
		p, table := tuitest.Dinner()
		p.Table = p.Table.In(time.FixedZone("there", int((row.east-4*time.Hour)/time.Second)))
		state, err := run.Fold(p, append(tuitest.Opening(p, table), timer(row.now)...))
		if err != nil {
			t.Fatal(err)
		}
		s := tuitest.NewOf(t, tuitest.Config{Width: 80, Height: 24, Now: row.now}, state)
		s.Keys("q")
		if asks := s.Model.Mode() == tui.Confirm; asks != row.asks {
			t.Errorf("%s: asks %v, want %v:\n%s", row.name, asks, row.asks, s.Frame())
		}
	}
}

func TestCuesRingUntilTheyAreAnswered(t *testing.T) {
	t.Parallel()
	s := normal(t, "before")
	s.TurnTo(tuitest.At(16, 9))
	want(t, "rings of the standby", rings(s), []run.Class{run.Soon})
	s.TurnTo(tuitest.At(16, 10).Add(30 * time.Second))
	want(t, "rings of the start", rings(s), []run.Class{run.Soon, run.Act})
	s.TurnTo(tuitest.At(16, 12))
	want(t, "rings while nobody answers", rings(s), []run.Class{run.Soon, run.Act, run.Act})
	s.Keys("space")
	s.TurnTo(tuitest.At(16, 20))
	want(t, "rings after the answer", rings(s), []run.Class{run.Soon, run.Act, run.Act})
}

func TestSilenceKeepsQuietAndSaysSo(t *testing.T) {
	t.Parallel()
	s := normal(t, "before")
	s.Keys("s")
	s.TurnTo(tuitest.At(15, 58))
	if frame := s.Frame(); !strings.Contains(frame, "quiet 2 min") && !strings.Contains(frame, "quiet 3 min") {
		t.Errorf("nothing says that it is quiet:\n%s", frame)
	}
	s.Keys("s")
	if strings.Contains(s.Frame(), "quiet 2") {
		t.Errorf("it is still quiet:\n%s", s.Frame())
	}
}

func TestNoticeOnlyWhileNotInFront(t *testing.T) {
	t.Parallel()
	for name, front := range map[string]bool{"in-front": true, "behind": false} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := normal(t, "before")
			s.Send(tui.FocusMsg{Front: front})
			s.TurnTo(tuitest.At(16, 11))
			notices := 0
			for _, e := range s.Effects {
				if n, ok := e.(tui.Notify); ok {
					notices++
					want(t, "notice", n.Text, "NOW Mix and knead the dough · Flatbreads · Tomas")
				}
			}
			if (notices > 0) == front {
				t.Errorf("in front %v and %d notices", front, notices)
			}
		})
	}
}

// TestWindowTitle: it changes with what is due or next, not with every second.
func TestWindowTitle(t *testing.T) {
	t.Parallel()
	s := normal(t, "before")
	s.TurnTo(tuitest.At(16, 11))
	var titles []string
	for _, e := range s.Effects {
		if e, ok := e.(tui.Title); ok {
			titles = append(titles, e.Text)
		}
	}
	want(t, "titles", titles, []string{
		"16:10 Mix and knead the dough - Kettledrum",
		"SOON Mix and knead the dough - Kettledrum",
		"NOW Mix and knead the dough - Kettledrum",
	})
}

// TestWrongKeySaysWhy: it does nothing, and says where the keys are told.
func TestWrongKeySaysWhy(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	s.Keys("f9")
	want(t, "effects", recorded(s), []string(nil))
	want(t, "message", s.Model.Message(), "f9 does nothing here: ? shows the keys")
	s.Keys("q f9")
	want(t, "message to a question", s.Model.Message(), "f9 does nothing here: esc steps back")
}

func TestOnReturnOneListAndOneBell(t *testing.T) {
	t.Parallel()
	s := normal(t, "list-on-return")
	want(t, "mode", s.Model.Mode(), tui.List)
	if n := len(rings(s)); n > 1 {
		t.Errorf("%d bells on return, want at most one", n)
	}
	if n := len(s.Model.Moment().Unconfirmed); n < 2 {
		t.Fatalf("the stage has %d unanswered, want some", n)
	}
	s.Keys("a")
	want(t, "left on the list", len(s.Model.Moment().Unconfirmed), 0)
	want(t, "mode after", s.Model.Mode(), tui.Main)
	for _, e := range s.Run.Told {
		if !e.At.Before(stage("list-on-return").Now) {
			t.Errorf("%s of %s is said to have happened at %v, not when it was planned", e.Kind, e.Step, e.At)
		}
	}
}

func TestListRowByRow(t *testing.T) {
	t.Parallel()
	s := normal(t, "list-on-return") // simmer, peel ends, boil the beans
	s.Keys("w")
	s.Type("17:12")
	s.Press("enter")
	want(t, "mode after when", s.Model.Mode(), tui.List)
	if diff := s.Run.Told[0].At.Sub(tuitest.At(17, 12)); diff != 0 || s.Run.Told[0].Kind != run.Started {
		t.Errorf("told %+v, want started at 17:12", s.Run.Told[0])
	}
	s.Keys("n")
	last := s.Run.Told[len(s.Run.Told)-1]
	if last.Kind != run.Prolonged || last.Step != "potatoes/peel" {
		t.Errorf("not yet done: told %+v, want more time for peeling", last)
	}
	s.Keys("enter")
	want(t, "the rest", len(s.Model.Moment().Unconfirmed), 0)
}

func TestListStaysClosedUntilThereIsMore(t *testing.T) {
	t.Parallel()
	s := normal(t, "list-on-return")
	s.Keys("esc")
	want(t, "mode", s.Model.Mode(), tui.Main)
	s.Real = s.Real.Add(time.Hour)
	s.Beat()
	want(t, "mode with the same list", s.Model.Mode(), tui.Main)
	if !strings.Contains(s.Frame(), "unanswered") {
		t.Errorf("the main screen does not mention the list:\n%s", s.Frame())
	}
	s.Keys("a")
	want(t, "left on the list", len(s.Model.Moment().Unconfirmed), 0)
}

func TestTickOnceAMinute(t *testing.T) {
	t.Parallel()
	s := normal(t, "going")
	s.Effects = nil
	for range 120 {
		s.Turn(time.Second)
	}
	n := 0
	for _, e := range s.Effects {
		if _, ok := e.(tui.Tick); ok {
			n++
		}
	}
	want(t, "ticks in two minutes", n, 2)
}

// lastHold is where the rehearsal's clock was last held.
func lastHold(s *tuitest.Screen) time.Time {
	var at time.Time
	for _, e := range s.Effects {
		if h, ok := e.(tui.HoldAt); ok {
			at = h.At
		}
	}
	return at
}

func TestRehearsalHoldsAtEachCue(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	if got := lastHold(s); !got.Equal(tuitest.At(16, 10)) {
		t.Fatalf("held at %v, want 16:10, the first cue", got)
	}
	s.Keys("n")
	if !s.Now.Equal(tuitest.At(16, 10)) {
		t.Fatalf("jumped to %v, want 16:10", s.Now)
	}
	s.Turn(0)
	s.Real = s.Real.Add(2 * time.Second)
	s.Press("n")
	if !strings.Contains(s.Model.Message(), "waits for you") {
		t.Errorf("jumping past an open cue says %q", s.Model.Message())
	}
	s.Press("space")
	if got := lastHold(s); !got.After(tuitest.At(16, 10)) {
		t.Errorf("after the answer the clock is still held at %v", got)
	}
	s.Press("h")
	if got := lastHold(s); !got.IsZero() {
		t.Errorf("running through, the clock is held at %v", got)
	}
	s.Keys("> < p")
	var tail []tui.Effect
	for _, e := range s.Effects {
		switch e.(type) {
		case tui.SetSpeed, tui.Pause:
			tail = append(tail, e)
		}
	}
	want(t, "speeds", tail, []tui.Effect{tui.SetSpeed{Speed: 120}, tui.SetSpeed{Speed: 60}, tui.Pause{On: true}})
}

// TestADinnerOnSpaceAlone goes through the whole rehearsal with one key, as a
// beginner would.
func TestADinnerOnSpaceAlone(t *testing.T) {
	t.Parallel()
	s := at(t, stage("before"), tuitest.Config{Width: 80, Height: 24, Rehearsal: true})
	for i := 0; !s.Model.Moment().Finished; i++ {
		if i == 200 {
			t.Fatalf("not served after %d presses; it is %s\n%s", i, s.Now.Format("15:04"), s.Frame())
		}
		if hold := lastHold(s); hold.After(s.Now) {
			s.Now = hold
		}
		s.Real = s.Real.Add(2 * time.Second)
		s.Beat()
		s.Real = s.Real.Add(2 * time.Second)
		if len(s.Model.Moment().Cues) > 0 {
			s.Press("space")
		}
	}
	for _, c := range s.Model.Moment().Courses {
		if c.Late > 0 {
			t.Errorf("%s was served %v late though every cue was answered when it was due", s.Model.State().Plan.Courses[c.Course].Name, c.Late)
		}
	}
}

func TestKeysReadInOneGo(t *testing.T) {
	t.Parallel()
	s := normal(t, "three-at-once")
	now := tui.Instants{At: s.Now, Real: s.Real}
	s.Send(tui.KeyMsg{Instants: now, Key: "tea 4", Text: "tea 4"}) // t opens the prompt
	want(t, "typed", s.Model.Typed(), "ea 4")
	s.Send(tui.KeyMsg{Instants: now, Key: "[\nhot ]", Text: "\nhot ", Paste: true})
	want(t, "after a paste", s.Model.Typed(), "ea 4hot ")
	s.Press("esc")
	s.Send(tui.KeyMsg{Instants: now, Key: "[xy]", Text: "xy", Paste: true})
	want(t, "mode after a paste where nothing is typed", s.Model.Mode(), tui.Main)
}
