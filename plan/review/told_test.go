package review_test

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
)

// TestMishapsOfWhatIsTold: what a cook tells, as lines of a script, and what a script
// cannot say. Minutes count from the planned start of the chopping.
func TestMishapsOfWhatIsTold(t *testing.T) {
	t.Parallel()
	const chop, simmer, bake = "soup/chop", "soup/simmer", "bread/bake"
	seconds := func(e *evening, minute, second int) time.Time {
		return e.when(minute).Add(time.Duration(second) * time.Second)
	}
	for _, c := range []struct {
		name string
		tell func(e *evening)
		want string
	}{
		{"in-time", func(e *evening) { e.at(0, started(chop)); e.at(10, finished(chop), started(simmer)) }, ""},
		{"some-seconds-late", func(e *evening) {
			e.c.Jump(seconds(e, 0, 40))
			e.at(0, started(chop))
			e.c.Jump(seconds(e, 10, 59))
			e.at(10, finished(chop))
		}, ""},
		{"sooner", func(e *evening) { e.at(0, started(chop)); e.at(7, finished(chop)) }, `{at: "+7", step: soup/chop, takes: 7m}`},
		{"later-and-silent", func(e *evening) { e.at(0, started(chop)); e.at(14, finished(chop)) }, `{at: "+10", silent: 4m}`},
		{"begun-late", func(e *evening) { e.at(3, started(chop)); e.at(13, finished(chop)) }, `{at: "+0", silent: 3m}`},
		{"later-while-something-else-was-told", func(e *evening) {
			e.at(-20)
			e.at(0, started(chop))
			e.at(12, run.Event{Kind: run.OvenTurned, Oven: "oven", Step: bake, Temp: degrees(204)})
			e.at(14, finished(chop))
		}, `{step: soup/chop, takes: 14m}`},
		{"prolonged-in-time", func(e *evening) {
			e.at(0, started(chop))
			e.at(8, run.Event{Kind: run.Prolonged, Step: chop, By: 5 * time.Minute})
			e.at(15, finished(chop))
		}, `{at: "+8", step: soup/chop, longer: 5m}`},
		{"as-planned-afterwards", func(e *evening) {
			e.at(0, started(chop))
			e.at(17)
			if _, err := e.s.Record(run.AllAsPlanned(run.Conduct(e.s.State(), e.c.Now()))...); err != nil {
				e.t.Fatal(err)
			}
		}, `{at: "+7", silent: 10m}`}, // the oven was to be set then
		{"taken-back", func(e *evening) {
			e.at(0, started(chop), run.Event{Kind: run.Prolonged, Step: chop, By: 5 * time.Minute})
			last, _ := e.s.State().LastUndoable()
			e.at(1, run.Event{Kind: run.Undone, Undoes: last.Seq})
		}, ""},
		{"paused", func(e *evening) {
			e.at(0, started(chop))
			e.at(3, run.Event{Kind: run.Paused, Step: chop})
			e.at(7, run.Event{Kind: run.Resumed, Step: chop})
			e.at(14, finished(chop))
		}, "# +3 Soup: Chop is interrupted: here it takes 4 min longer\n" + `{at: "+3", step: soup/chop, longer: 4m}`},
		{"away-nobody-knows-how-long", func(e *evening) {
			e.at(0, started(chop))
			e.at(4, run.Event{Kind: run.Away, Cook: "Cook"})
			e.at(9, run.Event{Kind: run.Back, Cook: "Cook"})
		}, "# +4 Cook is away, nobody knows until when: here known to be 5 min\n" + `{at: "+4", cook: Cook, away: 5m}`},
		{"away-and-back-sooner", func(e *evening) {
			e.at(4, run.Event{Kind: run.Away, Cook: "Cook", By: 10 * time.Minute})
			e.at(9, run.Event{Kind: run.Back, Cook: "Cook"})
		}, `{at: "+4", cook: Cook, away: 10m}` + "\n" + `{at: "+9", cook: Cook, back: true}`},
		{"not-in-the-plan", func(e *evening) {
			e.at(2, run.Event{Kind: run.Added, Text: "Open the door", Cook: "Cook", By: 3 * time.Minute}, run.Event{Kind: run.TimerSet, Text: "tea", By: 4 * time.Minute})
		}, "# +2 Open the door, which was not in the plan: Cook is away for 3 min instead\n# +2 a timer, tea, for 4 min\n" + `{at: "+2", cook: Cook, away: 3m}`},
		{"a-remedy-of-another-day", func(e *evening) {
			e.at(2, run.Event{Kind: run.RemedyTaken, Text: "serve later"})
		}, "# +2 a remedy that would not be offered again: serve later"},
		{"held-until-released", func(e *evening) {
			e.at(2, run.Event{Kind: run.Held, Course: "Dinner"})
			e.at(60, run.Event{Kind: run.Released, Course: "Dinner"})
		}, `{at: "+2", hold: Dinner}` + "\n" + `{at: "+60", release: Dinner}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p := decoded(t, soup)
			e := open(t, p, chop, time.Time{})
			c.tell(e)
			none := func([]run.Event, time.Time) []remedy.Remedy { return nil }
			s := review.Mishaps(e.s.State(), none)
			text := planfile.WriteScript(p, s.Mishaps, nil, s.Left)
			var got []string
			for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
				if line = strings.TrimPrefix(strings.TrimSpace(line), "- "); !strings.HasPrefix(line, "mishaps:") {
					got = append(got, line)
				}
			}
			want := c.want
			for minute := 60; minute >= 0; minute-- { // as times of the day
				want = strings.ReplaceAll(want, `"+`+strconv.Itoa(minute)+`"`, `"`+e.when(minute).Format("15:04")+`"`)
				want = strings.ReplaceAll(want, "+"+strconv.Itoa(minute)+" ", e.when(minute).Format("15:04")+" ")
			}
			if diff := cmp.Diff(want, strings.Join(got, "\n")); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if _, ps := planfile.Mishaps(text, p, p.Table); ps.HasErrors() {
				t.Errorf("the script is wrong: %v", ps)
			}
		})
	}
}

func degrees(c float64) *float64 { return &c }
