package planner

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/solve"
)

// sentence tells a clash: which facts, and what they clash about.
func (j *job) sentence(c *solve.Clash) string {
	var facts, about []string
	for _, g := range c.Facts {
		facts = append(facts, j.fact(j.guards[g]))
	}
	for _, g := range c.Means {
		about = append(about, j.means(j.guards[g], c))
	}
	text := "these cannot all be: " + strings.Join(facts, "; ")
	switch len(facts) {
	case 0:
		text = "the recipes alone cannot be"
	case 1:
		text = "this cannot be: " + facts[0]
	case 2:
		text = "both cannot be: " + strings.Join(facts, "; ")
	}
	if len(about) > 0 {
		text += ". The clash is over " + list(about)
	}
	return text
}

func list(s []string) string {
	if len(s) < 2 {
		return strings.Join(s, "")
	}
	return strings.Join(s[:len(s)-1], ", ") + " and " + s[len(s)-1]
}

// fact is a fact as the cook wrote it, with its numbers.
func (j *job) fact(g guarded) string {
	k := &j.p.Kitchen
	switch g.what {
	case thePlaces:
		return fmt.Sprintf("the %s has room for %d", k.Cold[g.index].Name, k.Cold[g.index].Places)
	case theTools:
		return "there " + are(k.Tools[g.index].Count, k.Tools[g.index].Name)
	case theBurners:
		return "there " + are(j.burners(g), plan.BurnerSize(g.index).String()+" burner")
	case theShelves:
		return fmt.Sprintf("the %s has %s", k.Ovens[g.index].Name, plan.SpellShelves(k.Ovens[g.index].Shelves))
	case theHours:
		return fmt.Sprintf("%s is free %s", k.Cooks[g.index].Name, j.hours(k.Cooks[g.index].Free))
	case theSeated:
		c := j.p.Courses[g.index]
		return fmt.Sprintf("the guests sit %s over %s", plan.Spell(c.Seated), c.Name)
	case theGap:
		for _, l := range j.p.Steps[g.index].After {
			if l.Step == g.from {
				return fmt.Sprintf("%s begins at most %s after %s", j.p.StepName(g.index), plan.Spell(l.Max), j.p.NameBeside(g.from, g.index))
			}
		}
	case atOnce:
		return fmt.Sprintf("%s begins at once after %s", j.p.StepName(g.index), j.p.NameBeside(g.from, g.index))
	case theKeep:
		return j.p.StepName(g.index) + " " + j.kept(j.p.Steps[g.index].Keeps)
	case theServe:
		c := j.p.Courses[g.index]
		at := fmt.Sprintf("%s is served at %s", c.Name, j.clock(j.p.Asked(g.index)))
		if c.LateOK > 0 {
			at += fmt.Sprintf(", %s late at most", plan.Spell(c.LateOK))
		}
		return at
	}
	return j.means(g, nil)
}

func (j *job) kept(k plan.Keep) string {
	most := k.For
	if k.Assumed && most == 0 {
		return "lasts until it is taken"
	}
	if k.Kind == plan.Liking {
		most = k.AtMost
	}
	text := "keeps " + plan.Spell(most) + " at most"
	if k.Place != "" {
		text += " in the " + k.Place
	}
	if k.Assumed {
		text += " (assumed)"
	}
	return text
}

// means is what a clash is about: of an oven, what it is to be at and how long a
// change takes; of a cook, that there are two hands.
func (j *job) means(g guarded, c *solve.Clash) string {
	k := &j.p.Kitchen
	switch g.what {
	case theMinds:
		return fmt.Sprintf("how many pots can be minded (%d a cook)", k.Minds)
	case theHands:
		return "the hands of " + k.Cooks[g.index].Name
	}
	text := "the " + k.Ovens[g.index].Name
	if c == nil {
		return text
	}
	// The bakes of the dishes that the facts speak of.
	var bakes []int
	for _, f := range c.Facts {
		switch f := j.guards[f]; f.what {
		case theKeep, theGap, atOnce:
			for i := range j.p.Steps {
				if b := j.p.Steps[i].Oven; b != nil && j.p.Steps[i].Dish == j.p.Steps[f.index].Dish && (b.In < 0 || b.In == g.index) && !slices.Contains(bakes, i) {
					bakes = append(bakes, i)
				}
			}
		}
	}
	if len(bakes) == 2 {
		a, b := j.p.Steps[bakes[0]].Oven, j.p.Steps[bakes[1]].Oven
		if change := max(j.ovens[g.index].Between(a.Lo, a.Hi, b.Lo, b.Hi), j.ovens[g.index].Between(b.Lo, b.Hi, a.Lo, a.Hi)); change > 0 {
			return fmt.Sprintf("%s, wanted at %s and at %s, with up to %s to change over", text, j.p.Units.Temp(a.At), j.p.Units.Temp(b.At), plan.Spell(change))
		}
	}
	return text
}

// wayWords says how one fact would have to be otherwise; n is what it would be.
func (j *job) wayWords(g guarded, n solve.Tick, r *solve.Result) string {
	k := &j.p.Kitchen
	minutes := time.Duration(n) * time.Minute
	switch g.what {
	case thePlaces:
		return fmt.Sprintf("if there were room for %d in the %s", k.Cold[g.index].Places+1, k.Cold[g.index].Name)
	case theTools:
		return "if there were one more " + k.Tools[g.index].Name
	case theBurners:
		return fmt.Sprintf("if there were one more %s burner", plan.BurnerSize(g.index))
	case theShelves:
		return fmt.Sprintf("if there were %s in the %s", plan.SpellShelves(k.Ovens[g.index].Shelves+2), k.Ovens[g.index].Name)
	case theHours:
		return fmt.Sprintf("if %s were free %s as well", k.Cooks[g.index].Name, j.outside(g.index, r))
	case theGap, atOnce:
		return fmt.Sprintf("if %s may begin up to %s after %s", j.p.StepName(g.index), plan.Spell(minutes), j.p.NameBeside(g.from, g.index))
	case theKeep:
		return fmt.Sprintf("if %s may be kept %s, where the food allows it", j.p.StepName(g.index), plan.Spell(minutes))
	case theServe:
		return fmt.Sprintf("if %s were at %s", j.p.Courses[g.index].Name, j.clock(j.time(n)))
	}
	return ""
}

// outside says when an answer has a cook at work who is not free then.
func (j *job) outside(cook int, r *solve.Result) string {
	var from, to solve.Tick
	found := false
	for u := range j.prob.Uses {
		if r.Choice[u] < 0 || len(j.prob.Uses[u].Options) == 0 {
			continue
		}
		for _, d := range j.prob.Uses[u].Options[r.Choice[u]] {
			if d.Resource != j.hands[cook] && d.Resource != j.minds[cook] {
				continue
			}
			a, b := j.spanOf(u, r)
			if !j.prob.Acts[j.prob.Uses[u].From.Act].Due && !j.free(cook, a, b) {
				if !found || a < from {
					from = a
				}
				to, found = max(to, b), true
			}
		}
	}
	for _, s := range r.Settings {
		if s.Choice == cook && !j.free(cook, s.Tick, s.Tick+1) {
			if !found || s.Tick < from {
				from = s.Tick
			}
			to, found = max(to, s.Tick+1), true
		}
	}
	return j.clock(j.time(from)) + "–" + j.clock(j.time(to))
}

func (j *job) spanOf(u int, r *solve.Result) (from, to solve.Tick) {
	at := func(q solve.Point, plus solve.Tick) solve.Tick {
		if q.End {
			return r.End[q.Act] + plus
		}
		return r.Start[q.Act] + plus
	}
	use := &j.prob.Uses[u]
	return at(use.From, use.FromPlus), at(use.To, use.ToPlus)
}

func (j *job) free(cook int, from, to solve.Tick) bool {
	return slices.ContainsFunc(j.p.Kitchen.Cooks[cook].Free, func(w plan.Window) bool {
		return !j.time(from).Before(w.From) && !j.time(to).After(w.To)
	})
}

func (j *job) burners(g guarded) int {
	if plan.BurnerSize(g.index) == plan.Small {
		return j.p.Kitchen.Burners.Small
	}
	return j.p.Kitchen.Burners.Large
}

// are says how many there are of something: "is one pan", "are 2 of pan".
func are(n int, of string) string {
	switch n {
	case 0:
		return "is no " + of
	case 1:
		return "is one " + of
	}
	return fmt.Sprintf("are %d of %s", n, of)
}

func (j *job) hours(free []plan.Window) string {
	var out []string
	for _, w := range free {
		out = append(out, j.clock(w.From)+"–"+w.To.In(j.p.Table.Location()).Format("15:04"))
	}
	return list(out)
}

func (j *job) clock(t time.Time) string { return run.DayTime(t, j.p.Table, j.p.Table.Location()) }
