package rehearse_test

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
	"example.org/kettledrum/plan/verify"
)

var all = flag.Bool("all", false, "the whole matrix: every kind of mishap at every moment of every dinner, which takes minutes")

// moments is at how many moments of a dinner things go wrong.
const moments = 3

// picked reports whether a cell of the matrix is looked at without -all: of the
// large dinner, and of what has much planned again, one moment of the three.
func picked(dinner string, kind, moment int) bool {
	heavy := kinds[kind].heavy
	if racing {
		return dinner == "weeknight" && kind%moments == moment
	}
	return *all || !(heavy && dinner == "banquet") && (dinner != "banquet" && !heavy || kind%moments == moment)
}

// dinner is an example that has gone as planned so far.
type dinner struct {
	p      *plan.Plan
	events []run.Event // to the end of the dinner
	from   time.Time   // the first thing of the cook-day
	to     time.Time   // the last serve
}

var dinners sync.Map

// cooked returns an example, cooked as planned, once for all tests.
func cooked(t *testing.T, name string) dinner {
	t.Helper()
	once, _ := dinners.LoadOrStore(name, sync.OnceValues(func() (dinner, error) { return cook(name) }))
	d, err := once.(func() (dinner, error))()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func cook(name string) (d dinner, err error) {
	src, _ := examples.Get(name)
	p, ps := planfile.Decode(src, planfile.Options{Now: time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC), Local: time.UTC})
	if ps.HasErrors() {
		return d, ps
	}
	d.p = p
	c, log := clocktest.New(p.CookDay().AddDate(0, 0, -7)), &journal.Memory{}
	s, err := session.Open(context.Background(), config(p, log, c, nil))
	if err != nil {
		return d, err
	}
	if err := session.Simulate(context.Background(), s, c, p.Table.AddDate(0, 0, 1), nil); err != nil {
		return d, err
	}
	d.events = s.State().Events
	tt := s.State().Timetable
	d.to, d.from = slices.MaxFunc(tt.Serves, time.Time.Compare), p.Table
	for _, slot := range tt.Slots {
		if slot.Start.Before(d.from) && slot.Start.After(p.CookDay()) {
			d.from = slot.Start
		}
	}
	return d, nil
}

func config(p *plan.Plan, log session.Log, c *clocktest.Manual, past []run.Event) session.Config {
	return session.Config{
		Log: log, Plan: p, Copy: run.PlanCopy{Name: "dinner.yaml", Table: p.Table, Zone: "UTC", Rehearse: true}, Past: past,
		Clock: c, Make: planner.Make, Again: planner.Again, Verify: verify.Check,
	}
}

// TestMatrix: each kind of mishap befalls each example at several moments. Whatever
// happens, every course is served, no rule is broken, in the past or to come, that
// was not named before; once the mishap is told, what is projected is what then
// happens; and the journal tells it all again, with the same cues.
func TestMatrix(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"weeknight", "harvest", "banquet"} {
		for n, kind := range kinds {
			for k := range moments {
				if !picked(name, n, k) {
					continue
				}
				t.Run(fmt.Sprintf("%s/%s/%d", name, kind.name, k+1), func(t *testing.T) {
					t.Parallel()
					d := cooked(t, name)
					befall(t, d, d.moment(k), kind.make)
				})
			}
		}
	}
}

// TestKindsBefall: there is a moment of each dinner at which each kind of mishap
// befalls something, so that the matrix has no empty row.
func TestKindsBefall(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"weeknight", "harvest", "banquet"} {
		d := cooked(t, name)
		for _, kind := range kinds {
			befalls := 0
			for k := range moments {
				now := d.moment(k)
				st, err := run.Fold(d.p, d.until(now))
				if err != nil {
					t.Fatal(err)
				}
				if kind.make(view{st, now}) != nil {
					befalls++
				}
			}
			if befalls == 0 && !nothing[name+"/"+kind.name] {
				t.Errorf("%s: %s befalls nothing", name, kind.name)
			}
		}
	}
}

// nothing are the rows for which a dinner has nothing.
var nothing = map[string]bool{"weeknight/step-dropped": true, // it has no chores
	"banquet/reading": true} // nothing with a temperature to reach is going then

// moment is the k-th at which things go wrong.
func (d dinner) moment(k int) time.Time {
	return d.from.Add(d.to.Sub(d.from) * time.Duration(k+1) / (moments + 1)).Truncate(time.Minute)
}

// until is what was told up to a moment.
func (d dinner) until(now time.Time) []run.Event {
	n := 0
	for n < len(d.events) && !d.events[n].At.After(now) {
		n++
	}
	return d.events[:n:n]
}

// befall goes on with a dinner from a moment on, with a mishap.
func befall(t *testing.T, d dinner, now time.Time, script func(view) []mishap.Mishap) {
	past := d.until(now)
	log, c := &journal.Memory{}, clocktest.New(now)
	for _, e := range past {
		payload, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := log.Append(payload); err != nil {
			t.Fatal(err)
		}
	}
	s, err := session.Open(t.Context(), config(d.p, log, c, past))
	if err != nil {
		t.Fatal(err)
	}
	mishaps := script(view{s.State(), now})
	if mishaps == nil {
		t.Log("nothing that it could befall")
		return
	}
	w := &witness{s: s, named: map[rule]bool{}, last: now}
	w.Player = rehearse.New(t.Context(), s, mishaps, now, rehearse.Watcher{
		Cue: func(c run.Cue, at time.Time) { t.Logf("%s  %-6s %s", at.Format("15:04"), c.Class, c.Text) },
		Mishap: func(m rehearse.Played) {
			t.Logf("%s  mishap %s", m.At.Format("15:04"), m.Text(d.p))
			if m.Refused != "" && m.Kind != mishap.TakeRemedy {
				t.Errorf("refused: %s", m.Refused)
			}
			w.last = c.Now()
			if m.Kind == mishap.Silent {
				w.last = m.At.Add(m.By)
			}
		},
		Replan: func(r rehearse.Replan) {
			t.Logf("%s  replan %q, late %v, breaks %v", r.At.Format("15:04"), r.Why, r.Late, r.Is.Breaks)
		},
	})
	w.name(s.State().Timetable.Breaks)
	if err := session.Play(t.Context(), s, c, d.to.Add(8*time.Hour), w); err != nil {
		t.Error(err)
	}
	w.check(t, log, past)
}

// rule is one that a step or a course breaks.
type rule struct {
	kind         plan.BreakKind
	step, course int
}

// ruleOf is the rule of a break. What several steps break together is of none of them.
func ruleOf(b plan.Break) rule {
	switch b.Kind {
	case plan.BreakMinding, plan.BreakBurner, plan.BreakTool, plan.BreakCold, plan.BreakSpace:
		return rule{b.Kind, -1, -1}
	}
	return rule{b.Kind, b.Step, b.Course}
}

// witness is a player that keeps what was said.
type witness struct {
	*rehearse.Player
	s      *session.Session
	named  map[rule]bool
	last   time.Time   // when the last mishap was told
	serves []time.Time // as projected at told: once it was, or what was in force then was mended
	told   time.Time
	// unworkable is what was in force then, where it cannot be worked as it is written and
	// is broken for that: the next one that is in force is told again. Nil where it can be.
	unworkable *plan.Timetable
	said       []said
	now        time.Time  // the instant at which Play was called last
	state      *run.State // what was known then
	looks      int
}

// said is what was said at an instant, after so many events.
type said struct {
	at     time.Time
	events int
	cues   []string
}

func (w *witness) Play(now time.Time) error {
	if err := w.Player.Play(now); err != nil {
		return err
	}
	st := w.s.State()
	w.name(st.Timetable.Breaks)
	if now.After(w.now) {
		w.look()
	}
	w.now, w.state = now, st
	return nil
}

// look keeps what a screen showed at the last instant, once all of it was answered.
func (w *witness) look() {
	if w.state == nil {
		return
	}
	m := run.Conduct(w.state, w.now)
	w.name(m.Breaks)
	if !w.now.After(w.last) || w.unworkable != nil && w.unworkable != w.state.Timetable {
		w.serves, w.told, w.unworkable = m.Projection.Serves, w.now, nil
		for _, b := range w.state.Timetable.Breaks {
			if b.Kind.Hard() && b.Kind != plan.BreakLate && b.Kind != plan.BreakKeep {
				w.unworkable = w.state.Timetable
			}
		}
	}
	if w.looks++; w.looks%4 == 1 {
		w.said = append(w.said, said{w.now, len(w.state.Events), words(m)})
	}
}

// Cue names what a cue warns of.
func (w *witness) Cue(c run.Cue, now time.Time) {
	w.Player.Cue(c, now)
	switch what, _, _ := strings.Cut(c.ID, ":"); what {
	case "conflict":
		w.name([]plan.Break{{Kind: plan.BreakOven, Step: c.Step, Course: -1}})
	case "keep":
		w.name([]plan.Break{{Kind: plan.BreakKeep, Step: c.Step, Course: -1}})
	case "late":
		w.name([]plan.Break{{Kind: plan.BreakLate, Step: -1, Course: c.Course}})
	}
}

func (w *witness) name(breaks []plan.Break) {
	for _, b := range breaks {
		w.named[ruleOf(b)] = true
	}
}

func words(m run.Moment) (out []string) {
	for _, c := range m.Cues {
		out = append(out, c.ID+" "+c.Due.UTC().Format(time.RFC3339)+" "+c.Text)
	}
	return out
}

func (w *witness) check(t *testing.T, log *journal.Memory, past []run.Event) {
	w.look()
	st := w.s.State()
	for c, course := range st.Courses {
		if course.Served.IsZero() {
			t.Errorf("%s is not served", st.Plan.Courses[c].Name)
		} else if course.Served.Sub(w.serves[c]).Abs() >= time.Minute {
			t.Errorf("%s served %s, projected %s at %s", st.Plan.Courses[c].Name, course.Served.Format("15:04"), w.serves[c].Format("15:04"), w.told.Format("15:04"))
		}
	}
	for _, b := range w.s.Happened().Breaks {
		if !w.named[ruleOf(b)] && b.Kind.Hard() {
			t.Errorf("broken and never named: %s %s, %s", b.At.Format("15:04"), b.Kind, b.Text)
		}
	}

	told, err := session.Load(log.Records()[len(past):])
	if err != nil {
		t.Fatal(err)
	}
	again, err := run.Fold(st.Base, past)
	if err != nil {
		t.Fatal(err)
	}
	k := 0
	for i := 0; ; i++ {
		for ; k < len(w.said) && w.said[k].events == len(again.Events); k++ {
			if diff := cmp.Diff(w.said[k].cues, words(run.Conduct(again, w.said[k].at))); diff != "" {
				t.Errorf("at %s (-said +told again):\n%s", w.said[k].at.Format("15:04"), diff)
			}
		}
		if i == len(told) {
			break
		}
		if again, err = again.Apply(told[i]); err != nil {
			t.Fatal(err)
		}
	}
	same(t, again, st)
}

// same compares what two states know.
func same(t *testing.T, again, st *run.State) {
	t.Helper()
	utc := cmp.Comparer(func(a, b time.Time) bool { return a.Equal(b) })
	for what, pair := range map[string][2]any{
		"steps": {again.Steps, st.Steps}, "courses": {again.Courses, st.Courses}, "ovens": {again.Sets, st.Sets},
		"changes": {again.Changes, st.Changes}, "timetable": {again.Timetable, st.Timetable},
	} {
		if diff := cmp.Diff(pair[1], pair[0], utc, cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s (-were +told again):\n%s", what, diff)
		}
	}
	if len(again.Events) != len(st.Events) {
		t.Errorf("%d events, were %d", len(again.Events), len(st.Events))
	}
}
