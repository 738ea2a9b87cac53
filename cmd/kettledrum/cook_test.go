package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

const soup = `kettledrum: 1
title: Barley soup
guests: 2
table: 2026-10-17 19:00
zone: UTC
dishes:
  - name: Soup
    steps:
      - Chop the leeks, 10m
      - {do: Simmer, takes: 40m, burner: large}
`

func utc(d, h, m int) time.Time { return time.Date(2026, 10, d, h, m, 0, 0, time.UTC) }

// cookAt is a cook command at an instant, and what it says.
func cookAt(now time.Time) (*cook, *strings.Builder) {
	var said strings.Builder
	w := &world{out: &results{w: &said}, msg: messages{&said}, clock: clocktest.New(now), local: time.UTC}
	return &cook{w: w, src: source{name: "soup.yaml", path: "/home/ines/soup.yaml", text: []byte(soup)}}, &said
}

// opened leaves the journal of a run that was opened at now.
func opened(t *testing.T, state string, now time.Time) (dir string) {
	t.Helper()
	k, _ := cookAt(now)
	dir, p, err := k.find(t.Context(), state)
	if err != nil {
		t.Fatal(err)
	}
	j, past, err := k.open(dir)
	if err != nil || len(past) != 0 {
		t.Fatalf("open: %d events, %v", len(past), err)
	}
	defer j.Close()
	cfg := sessionConfig(k.w.clock, j)
	cfg.Plan, cfg.Copy = p, k.src.copyOf(p, k.how)
	s, err := session.Open(t.Context(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Record(run.Event{Kind: run.Started, Step: "soup/chop-the-leeks"}); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestCookInTime(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name string
		now  time.Time
		want string // part of the error; empty: it may begin
	}{
		{"just-in-time", utc(17, 18, 59), ""},
		{"at-the-table", utc(17, 19, 0), "is past"},
		{"years-later", utc(17, 19, 0).AddDate(3, 0, 0), "is past"},
		// Fifty minutes of steps: the first is at 18:10, eighteen hours after 00:10.
		{"night-before", utc(17, 0, 10), ""},
		{"day-before", utc(17, 0, 9), "its first step is Sat 17 October 2026, 18:10"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			k, said := cookAt(tt.now)
			state := t.TempDir()
			_, _, err := k.find(t.Context(), state)
			if tt.want == "" {
				if err != nil {
					t.Fatal(err)
				}
				return
			}
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Fatalf("error %v, want one with %q", err, tt.want)
			}
			if got := exitCode(err); got != exitUse {
				t.Errorf("exit code %d, want %d", got, exitUse)
			}
			k.w.msg.report(err)
			if !strings.Contains(said.String(), "hint: to cook it today: kettledrum cook soup.yaml --serve 19:00") {
				t.Errorf("no way out is named:\n%s", said)
			}
			if left, _ := os.ReadDir(state); len(left) > 0 {
				t.Errorf("a refused dinner left %v", left)
			}
		})
	}
}

// A run under way is found without its time being told again, even after its
// table and with a file that can no longer be read; one of another day is not.
func TestCookFindsTheRunUnderWay(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	dir := opened(t, state, utc(17, 18, 5))

	k, said := cookAt(utc(17, 19, 40))
	k.src.text = []byte("oh: no")
	got, _, err := k.find(t.Context(), state)
	if err != nil || got != dir {
		t.Fatalf("found %q, %v; want %q", got, err, dir)
	}
	j, past, err := k.open(got)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	p, err := k.goOn(past)
	if err != nil {
		t.Fatal(err)
	}
	if p.Title != "Barley soup" || !p.Table.Equal(utc(17, 19, 0)) {
		t.Errorf("going on with %s at %v", p.Title, p.Table)
	}
	if !strings.Contains(said.String(), "soup.yaml has changed since") {
		t.Errorf("nothing said that the file has changed:\n%s", said)
	}

	k, _ = cookAt(utc(19, 18, 0))
	if got, _, err := k.find(t.Context(), state); err == nil {
		t.Errorf("two days later the run %q was found, want a refusal", got)
	}
}

// A damaged line stops with its place; --mend goes on from before it and keeps
// the damaged journal.
func TestCookMendsOnlyWhenAsked(t *testing.T) {
	t.Parallel()
	state := t.TempDir()
	dir := opened(t, state, utc(17, 18, 5))
	name := filepath.Join(dir, journal.FileName)
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(string(data), "\n")
	lines[1] = strings.Replace(lines[1], "adopted", "adapted", 1)
	damaged := strings.Join(lines, "")
	if err := os.WriteFile(name, []byte(damaged), 0o600); err != nil {
		t.Fatal(err)
	}

	k, said := cookAt(utc(17, 18, 20))
	_, _, err = k.open(dir)
	if err == nil || exitCode(err) != exitJournal || !strings.Contains(err.Error(), "line 2") {
		t.Fatalf("error %v, want one of the journal that names line 2", err)
	}
	k.w.msg.report(err)
	if !strings.Contains(said.String(), "kettledrum cook soup.yaml --mend") {
		t.Errorf("no way out is named:\n%s", said)
	}
	if now, _ := os.ReadFile(name); string(now) != damaged {
		t.Error("the journal was changed without being asked")
	}

	k.mend = true
	j, past, err := k.open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if len(past) != 1 || past[0].Kind != run.Opened {
		t.Errorf("going on with %d events, want the one before the damage", len(past))
	}
	kept, _ := filepath.Glob(name + ".damaged-*")
	if len(kept) != 1 {
		t.Errorf("kept %v, want one damaged journal", kept)
	}
}

// Two conductors of one run: the second is refused by name.
func TestCookLocked(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	lock, err := journal.Acquire(dir, utc(17, 18, 0))
	if err != nil {
		t.Fatal(err)
	}
	defer lock.Release()
	_, err = journal.Acquire(dir, utc(17, 18, 1))
	err = locked(err)
	if exitCode(err) != exitLocked || !errors.Is(err, journal.ErrLocked) {
		t.Errorf("error %v with code %d, want one of the lock with code %d", err, exitCode(err), exitLocked)
	}
}

func TestRehearsePastDinnerIsToday(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name string
		now  time.Time
		want time.Time
	}{
		{"long-past", utc(25, 11, 0), utc(25, 19, 0)},
		{"past-today", utc(17, 21, 0), utc(17, 19, 0)},
		{"to-come", utc(2, 11, 0), utc(17, 19, 0)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			k, _ := cookAt(tt.now)
			p, err := (&rehearsal{w: k.w}).load(k.src)
			if err != nil {
				t.Fatal(err)
			}
			if !p.Table.Equal(tt.want) {
				t.Errorf("table %v, want %v", p.Table, tt.want)
			}
		})
	}
}

func TestVerdict(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name string
		t    plan.Timetable
		want int
	}{
		{"whole", plan.Timetable{Status: plan.Whole}, exitFine},
		{"late-within", plan.Timetable{Status: plan.Late}, exitFine},
		{"liking", plan.Timetable{Status: plan.Whole, Breaks: []plan.Break{{Kind: plan.BreakLiking}}}, exitFine},
		{"caution", plan.Timetable{Status: plan.Whole, Cautions: []plan.Caution{{Code: "hot"}}}, exitFine},
		{"broken", plan.Timetable{Status: plan.Broken, Breaks: []plan.Break{{Kind: plan.BreakOven}}}, exitPlan},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := exitCode(verdict(&tt.t)); got != tt.want {
				t.Errorf("exit code %d, want %d", got, tt.want)
			}
		})
	}
}

const ahead = `kettledrum: 1
title: Barley soup
guests: 2
table: 2026-10-17 19:00
zone: UTC
kitchen: home.yaml
dishes:
  - name: Soup
    steps:
      - {do: Soak the barley, waits: 1d20h to 2d in fridge}
      - {do: Simmer, takes: 30m (30m-60m), burner: large}
`

// aheadAt is a cook command at an instant for a dinner that begins on the Thursday
// before: with a kitchen beside the plan.
func aheadAt(t *testing.T, dir string, now time.Time) *cook {
	t.Helper()
	home := "cooks:\n  - {name: Ines, free: [Thu 19:00-21:30, Sat 10:00-23:00]}\n"
	for name, text := range map[string]string{"soup.yaml": ahead, "home.yaml": home} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	k, _ := cookAt(now)
	var err error
	if k.src, err = readSource([]string{filepath.Join(dir, "soup.yaml")}); err != nil {
		t.Fatal(err)
	}
	return k
}

// The first step is on Thursday evening: from eighteen hours before it on the
// dinner can be opened, and on Saturday it is found again, with the kitchen and
// the lengths that it was opened with.
func TestCookOnAnEarlierDay(t *testing.T) {
	t.Parallel()
	dir, state := t.TempDir(), t.TempDir()
	_, _, err := aheadAt(t, dir, utc(14, 20, 0)).find(t.Context(), state)
	if err == nil || !strings.Contains(err.Error(), "its first step is Thu 15 October 2026, 21:29") {
		t.Fatalf("on Wednesday: error %v, want the first step", err)
	}

	k := aheadAt(t, dir, utc(15, 19, 0))
	k.how.cautious = true
	run, p, err := k.find(t.Context(), state)
	if err != nil {
		t.Fatal(err)
	}
	j, _, err := k.open(run)
	if err != nil {
		t.Fatal(err)
	}
	cfg := sessionConfig(k.w.clock, j)
	cfg.Plan, cfg.Copy = p, k.src.copyOf(p, k.how)
	if _, err := session.Open(t.Context(), cfg); err != nil {
		t.Fatal(err)
	}
	j.Close()

	again := aheadAt(t, dir, utc(17, 16, 0))
	if err := os.Remove(filepath.Join(dir, "home.yaml")); err != nil {
		t.Fatal(err)
	}
	found, _, err := again.find(t.Context(), state)
	if err != nil || found != run {
		t.Fatalf("on Saturday: found %q, %v; want %q", found, err, run)
	}
	j, past, err := again.open(found)
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if p, err = again.goOn(past); err != nil {
		t.Fatal(err)
	}
	if got := p.Kitchen.Cooks[0].Name; got != "Ines" {
		t.Errorf("the cook is %s", got)
	}
	// 1 − 0.2^(1/5) = 0.2752 of the 30 minutes between, rounded up.
	if got := plan.Minutes(p.Steps[1].Length.Planned()); got != 39 {
		t.Errorf("the simmer is planned with %d min, want 39", got)
	}
}

// Whoever opens a dinner on its day without having told of the days before must
// say that what was to be made is made: then only the rest lies ahead.
func TestCookMadeAhead(t *testing.T) {
	t.Parallel()
	dir, state := t.TempDir(), t.TempDir()
	_, _, err := aheadAt(t, dir, utc(17, 16, 0)).find(t.Context(), state)
	if err == nil || !strings.Contains(err.Error(), "begins on Thu 15 October 2026, 21:29") {
		t.Fatalf("error %v, want the day that nothing was told of", err)
	}

	k := aheadAt(t, dir, utc(17, 16, 0))
	k.made = true
	_, p, err := k.find(t.Context(), state)
	if err != nil {
		t.Fatal(err)
	}
	cfg := sessionConfig(k.w.clock, new(journal.Memory))
	cfg.Plan, cfg.Copy = p, k.src.copyOf(p, k.how)
	cfg.Made = midnight(k.w.clock.Now())
	s, err := session.Open(t.Context(), cfg)
	if err != nil {
		t.Fatal(err)
	}
	st := s.State()
	if got := st.Timetable.Status; got != plan.Whole {
		t.Errorf("the timetable is %s: %v", got, st.Timetable.Breaks)
	}
	m := run.Conduct(st, k.w.clock.Now())
	for _, c := range m.Cues {
		t.Errorf("at four there is nothing to do, and it says: %s", c.Text)
	}
	if got := st.Timetable.Slots[1].Start; !got.Equal(utc(17, 18, 30)) {
		t.Errorf("the simmer starts at %v", got)
	}
}
