package run_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/run"
)

// supper is a small dinner with a timetable made by hand, one cook and one
// oven. By the first-order model (package heat, computed) the oven takes 10 minutes
// from 20 to 160 °C, and 8 from 170 to 225.
//
//	15:00 Lamb        season ─ 15:20 roast at 165 (set 15:10) ─ 18:20 rest ─ 18:50 carve ─ Main 19:00
//	17:00 Flatbreads  knead ─ 17:15 prove ─ 18:40 bake at 230 (set 18:20, ready 18:29)
//	19:10 Pears       poach ─ 19:30 cool ─ Sweet 19:45
type supper struct {
	*plantest.Builder
	t                                                              plan.Timetable
	season, roast, rest, carve, knead, prove, bake, poach, cooling int
}

func newSupper() *supper {
	b := plantest.New("2026-10-17 19:00")
	b.Cook("Ines", "12:00-23:00")
	main := b.Course("Main", 0, 40*time.Minute, 20*time.Minute)
	sweet := b.Course("Sweet", 45*time.Minute, 30*time.Minute, 20*time.Minute)
	s := &supper{Builder: b}
	b.Dish("Lamb", main)
	s.season = b.Step("Season", plantest.Takes(15), plantest.Limit(120))
	s.roast = b.Step("Roast", plantest.Takes(180), plantest.Oven(165, 2))
	b.Plan.Steps[s.roast].Until = plan.Until{Temp: 88, HasTemp: true, Sign: "pulls apart"}
	s.rest = b.Step("Rest", plantest.Waits(20, 45), plantest.AtOnce, plantest.Limit(0))
	s.carve = b.Step("Carve", plantest.Takes(10), plantest.Keeps(5, 20))
	b.Dish("Flatbreads", main)
	s.knead = b.Step("Knead", plantest.Takes(15))
	s.prove = b.Step("Prove", plantest.Waits(60, 120), plantest.Limit(0))
	s.bake = b.Step("Bake", plantest.Takes(12), plantest.Oven(230, 2), plantest.Keeps(10, 30))
	b.Dish("Pears", sweet)
	s.poach = b.Step("Poach", plantest.Takes(20), plantest.Burner(plan.Small))
	s.cooling = b.Step("Cool", plantest.Waits(10, 40), plantest.Limit(0))
	s.t.Status = plan.Whole
	s.t.Slots = []plan.Slot{
		b.Slot("15:00", "15:15", "Ines"), b.Slot("15:20", "18:20", "oven"), b.Slot("18:20", "18:50"), b.Slot("18:50", "19:00", "Ines"),
		b.Slot("17:00", "17:15", "Ines"), b.Slot("17:15", "18:40"), b.Slot("18:40", "18:52", "oven"),
		b.Slot("19:10", "19:30", "small"), b.Slot("19:30", "19:45"),
	}
	s.t.Serves = []time.Time{b.At("19:00"), b.At("19:45")}
	s.t.Sets = []plan.OvenSet{
		{At: b.At("15:10"), To: 165, For: s.roast, Ready: b.At("15:20")},
		{At: b.At("18:20"), To: 230, For: s.bake, Ready: b.At("18:29")},
		{At: b.At("18:52"), Off: true, For: -1},
	}
	return s
}

// run returns the state after events written as "18:25 finished lamb/roast".
func (s *supper) run(t *testing.T, events ...string) *run.State {
	t.Helper()
	st, err := run.Fold(&s.Plan, s.events(events...))
	if err != nil {
		t.Fatal(err)
	}
	return st
}

func (s *supper) events(lines ...string) []run.Event {
	out := []run.Event{
		{Kind: run.Opened, At: s.At("14:00"), Plan: &run.PlanCopy{Name: "supper.yaml"}},
		{Kind: run.Adopted, At: s.At("14:00"), Timetable: &s.t},
	}
	for _, l := range lines {
		out = append(out, s.event(l))
	}
	return out
}

func (s *supper) event(line string) run.Event {
	f := strings.Fields(line)
	e := run.Event{At: s.At(f[0]), Kind: run.Kind(f[1])}
	for _, arg := range f[2:] {
		d, err := time.ParseDuration(arg)
		switch {
		case err == nil:
			e.By = d
		case e.Kind == run.Served, e.Kind == run.Held, e.Kind == run.Released:
			e.Course = arg
		case e.Kind == run.Away, e.Kind == run.Back, e.Kind == run.Reassigned && e.Step != "":
			e.Cook = arg
		case (e.Kind == run.Failed || e.Kind == run.Works || e.Kind == run.Put) && (arg == "large" || arg == "small"):
			e.Burner = arg
		case (e.Kind == run.Failed || e.Kind == run.Works || e.Kind == run.Put) && arg == "oven":
			e.Oven = arg
		case e.Kind == run.Dropped:
			e.Dish = arg
		case e.Kind == run.Acknowledged:
			e.Cue = arg
		case e.Kind == run.OvenTurned && e.Oven == "":
			e.Oven = arg
		case (e.Kind == run.OvenTurned || e.Kind == run.Reading) && strings.HasSuffix(arg, "C"):
			temp, err := strconv.ParseFloat(strings.TrimSuffix(arg, "C"), 64)
			if err != nil {
				panic(err)
			}
			e.Temp = &temp
		case e.Kind == run.Undone:
			for _, digit := range arg {
				e.Undoes = e.Undoes*10 + uint64(digit-'0')
			}
		case e.Kind == run.TimerSet:
			e.Text = arg
		default:
			e.Step = arg
		}
	}
	return e
}

// upTo is a run in which everything went as planned until a time.
func (s *supper) upTo(clock string, more ...string) []string {
	all := []string{
		"15:00 started lamb/season", "15:10 oven_set oven 165C lamb/roast", "15:15 finished lamb/season",
		"15:20 started lamb/roast",
		"17:00 started flatbreads/knead", "17:15 finished flatbreads/knead", "17:15 started flatbreads/prove",
		"18:20 finished lamb/roast", "18:20 oven_set oven 230C flatbreads/bake",
		"18:40 started flatbreads/bake", "18:50 started lamb/carve", "18:52 finished flatbreads/bake", "18:52 oven_set oven",
		"19:00 finished lamb/carve", "19:00 served Main", "19:10 started pears/poach", "19:30 finished pears/poach",
		"19:30 started pears/cool", "19:45 served Sweet",
	}
	n := 0
	for n < len(all) && all[n][:5] <= clock {
		n++
	}
	return append(all[:n:n], more...)
}

func hm(t time.Time) string {
	if t.Second() != 0 {
		return t.Format("15:04:05")
	}
	return t.Format("15:04")
}
