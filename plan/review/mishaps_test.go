package review_test

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

// example returns a built-in dinner.
func example(t testing.TB, name string) *plan.Plan {
	t.Helper()
	src, _ := examples.Get(name)
	p, ps := planfile.Decode(src, planfile.Options{Now: time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC), Local: time.UTC})
	if ps.HasErrors() {
		t.Fatal(ps)
	}
	return p
}

func config(p *plan.Plan, log session.Log, c *clocktest.Manual, first *plan.Timetable) session.Config {
	return session.Config{
		Log: log, Plan: p, Copy: run.PlanCopy{Name: "dinner.yaml", Table: p.Table, Zone: "UTC", Rehearse: true},
		Clock: c, Again: planner.Again, Verify: verify.Check,
		Make: func(context.Context, *plan.Plan) *plan.Timetable { return first },
	}
}

// cue is one as a cook hears it: what kind, of which step, in which minute.
type cue struct {
	At    string
	Class string
	ID    string
	Step  string
}

// cooked plays a dinner with mishaps on a real session. It returns the run as its
// journal has it, and the cues as they came up.
func cooked(t testing.TB, p *plan.Plan, first *plan.Timetable, script []mishap.Mishap) (*run.State, []cue, []rehearse.Played) {
	t.Helper()
	begin := p.Table
	for _, s := range first.Slots {
		begin = plan.Earlier(begin, s.Start)
	}
	for _, touch := range first.Touches {
		begin = plan.Earlier(begin, touch.At)
	}
	begin = begin.Add(-run.SoonAhead)
	log, c := &journal.Memory{}, clocktest.New(begin)
	s, err := session.Open(t.Context(), config(p, log, c, first))
	if err != nil {
		t.Fatal(err)
	}
	var cues []cue
	var played []rehearse.Played
	player := rehearse.New(t.Context(), s, script, begin, rehearse.Watcher{
		Cue: func(q run.Cue, at time.Time) {
			step := ""
			if q.Step >= 0 {
				step = p.Steps[q.Step].ID
			}
			cues = append(cues, cue{at.UTC().Format("Mon 15:04"), q.Class.String(), q.ID, step})
		},
		Mishap: func(m rehearse.Played) { played = append(played, m) },
	})
	if err := session.Play(t.Context(), s, c, p.Table.Add(12*time.Hour), player); err != nil {
		t.Fatal(err)
	}
	events, err := session.Load(log.Records())
	if err != nil {
		t.Fatal(err)
	}
	st, err := run.Fold(p, events)
	if err != nil {
		t.Fatal(err)
	}
	return st, cues, played
}

// offered asks a session that has the same past.
func offered(t testing.TB, p *plan.Plan) review.Offered {
	return func(before []run.Event, at time.Time) []remedy.Remedy {
		cfg := config(p, &journal.Memory{}, clocktest.New(at), nil)
		cfg.Past = before
		s, err := session.Open(t.Context(), cfg)
		if err != nil {
			t.Fatal(err)
		}
		return s.Remedies(t.Context())
	}
}

// draw draws a script: a few mishaps of any kind at any time of the last hours, of
// which those that cannot be are refused.
func draw(p *plan.Plan, first *plan.Timetable, r *rand.Rand, quiet bool) []mishap.Mishap {
	last := slices.MaxFunc(first.Serves, time.Time.Compare)
	var out []mishap.Mishap
	kinds := []mishap.Kind{mishap.Longer, mishap.Longer, mishap.Takes, mishap.Takes, mishap.Reading, mishap.Burnt, mishap.Dropped, mishap.GivenTo,
		mishap.PutOn, mishap.Away, mishap.Back, mishap.Fails, mishap.Works, mishap.Hold, mishap.Release, mishap.GuestsLate, mishap.TakeRemedy}
	if quiet {
		kinds = append(kinds, mishap.Silent, mishap.Silent, mishap.Silent)
	}
	for range 4 + r.IntN(4) {
		m := mishap.None(kinds[r.IntN(len(kinds))])
		m.At = last.Add(-time.Duration(r.IntN(240)) * time.Minute)
		m.By = time.Duration(2+r.IntN(25)) * time.Minute
		step := func() int { // that is going, or soon will be
			for range 200 {
				i := r.IntN(len(p.Steps))
				if s := first.Slots[i]; s.End.After(m.At) && s.Start.Before(m.At.Add(20*time.Minute)) && !p.Steps[i].Length.Elastic {
					return i
				}
			}
			return r.IntN(len(p.Steps))
		}
		switch m.Kind {
		case mishap.Longer:
			if m.Step = step(); r.IntN(2) == 0 {
				m.At = time.Time{}
			}
		case mishap.Takes:
			m.Step, m.At = step(), time.Time{}
			m.By = max(time.Minute, p.Steps[m.Step].Length.Planned()+time.Duration(r.IntN(20)-6)*time.Minute)
		case mishap.Reading:
			m.Step, m.Temp = step(), plan.FromFahrenheit(float64(90+r.IntN(70)))
		case mishap.Burnt:
			if m.Again = r.IntN(3) > 0; r.IntN(2) == 0 {
				m.Step = step()
			} else {
				m.Dish = p.Steps[step()].Dish
			}
		case mishap.Dropped:
			m.Step = step()
		case mishap.GivenTo:
			m.Step, m.Cook = step(), r.IntN(len(p.Kitchen.Cooks))
		case mishap.PutOn:
			if m.Step = step(); p.Steps[m.Step].Oven != nil {
				m.Oven = r.IntN(len(p.Kitchen.Ovens))
			} else {
				m.Burner = plan.Large
			}
		case mishap.Away, mishap.Back:
			m.Cook = r.IntN(len(p.Kitchen.Cooks))
		case mishap.Fails, mishap.Works:
			if m.Burner = plan.Large; r.IntN(3) == 0 {
				m.Burner, m.Oven = plan.AnyBurner, r.IntN(len(p.Kitchen.Ovens))
			}
		case mishap.Hold, mishap.Release:
			m.Course = r.IntN(len(p.Courses))
		case mishap.TakeRemedy:
			m.Remedy = 1
		}
		out = append(out, m)
	}
	return out
}

var seeds = flag.Int("seeds", 1, "how many times as many drawn runs")

// TestMishapsGiveTheSameCues: what went wrong in a recorded run, drawn by a seed, is
// derived from its journal, written as a script, read, and rehearsed: the same cues of
// the same steps in the same minutes. A fast clock jumps to what is due, and shows a
// standby cue only where it happens to stop: so those, and all cues where somebody was silent, are compared minute
// by minute, as a screen would have shown them.
func TestMishapsGiveTheSameCues(t *testing.T) {
	t.Parallel()
	runs := map[string]int{"weeknight": 20, "harvest": 4, "banquet": 1}
	if racing {
		runs = map[string]int{"weeknight": 6}
	}
	for name, n := range runs {
		p := example(t, name)
		first := planner.Make(t.Context(), p)
		for seed := range n * *seeds {
			t.Run(fmt.Sprintf("%s/%d", name, seed), func(t *testing.T) {
				t.Parallel()
				r := rand.New(rand.NewPCG(uint64(seed), 8))
				quiet := seed%4 == 3
				st, want, played := cooked(t, p, first, draw(p, first, r, quiet))
				for _, m := range played {
					t.Logf("%s %s %s", m.At.UTC().Format("Mon 15:04"), m.Text(p), m.Refused)
				}
				script := review.Mishaps(st, offered(t, p))
				text := planfile.WriteScript(p, script.Mishaps, []string{"of a test"}, script.Left)
				t.Logf("%s", text)
				read, ps := planfile.Mishaps(text, p, p.Table)
				if ps.HasErrors() {
					t.Fatal(ps)
				}
				again, got, _ := cooked(t, p, first, read)
				if diff := cmp.Diff(due(want), due(got)); diff != "" && !quiet {
					t.Errorf("cues (-recorded +rehearsed):\n%s", diff)
				}
				if diff := cmp.Diff(heard(st), heard(again)); diff != "" {
					t.Errorf("cues minute by minute (-recorded +rehearsed):\n%s", diff)
				}
			})
		}
	}
}

// due leaves the standby cues out.
func due(cues []cue) []cue {
	return slices.DeleteFunc(cues, func(c cue) bool { return c.Class == run.Soon.String() })
}

// heard lists the cues that a screen would have had in the hours in which things go
// wrong, looked at each minute.
func heard(st *run.State) (out []cue) {
	past, _ := run.Fold(st.Base, nil)
	at, k := slices.MaxFunc(st.Timetable.Serves, time.Time.Compare).Add(-5*time.Hour), 0
	for ; st.Events[k].Noted.Before(at); k++ {
		past, _ = past.Apply(st.Events[k])
	}
	open := map[string]bool{}
	for ; k < len(st.Events) || at.Before(st.Events[len(st.Events)-1].At); at = at.Add(time.Minute) {
		now := map[string]bool{}
		look := func() {
			for _, q := range run.Conduct(past, at).Cues {
				if now[q.ID] = true; !open[q.ID] {
					step := ""
					if q.Step >= 0 {
						step = st.Plan.Steps[q.Step].ID
					}
					out = append(out, cue{at.UTC().Format("Mon 15:04"), q.Class.String(), q.ID, step})
				}
				open[q.ID] = true
			}
		}
		look()
		for k < len(st.Events) && !st.Events[k].Noted.After(at) {
			past, _ = past.Apply(st.Events[k])
			k++
			look()
		}
		open = now
	}
	return out
}
