package safety

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/ingredient"
	"example.org/kettledrum/plan/measure"
)

// thaws looks whether frozen meat, poultry, fish and shellfish are thawed, how, and
// for how long.
func (f *finder) thaws() {
	f.dishes(func(d *plan.Dish, steps []int) {
		for _, line := range d.Ingredients {
			k := kindsIn(line.Text)
			if k&(meats|seafood) == 0 || !ingredient.Of(line, measure.US).Frozen {
				continue
			}
			f.thaw(d, steps, line, k)
		}
	})
	for i := range f.p.Steps { // what thaws on the counter is told whatever it is
		s := &f.p.Steps[i]
		if f.skipped(i) || !says(s.Do, thawWords...) || kindsIn(s.Do)&(meats|seafood) == 0 && (f.chore(i) || f.points[i].kinds&(meats|seafood) == 0) {
			continue
		}
		if how := thawMethod(s); how == "" {
			f.add("thaw", i, "it thaws at room temperature", "thaw it in the refrigerator, in cold water changed every 30 minutes, or in the microwave")
		}
	}
}

var thawWords = []string{"thaw", "thawing", "defrost", "defrosting"}

// atOnce is what counts as at once, as far as a kitchen can. Common practice.
const atOnce = 30 * time.Minute

// thawMethod returns "fridge", "water", "microwave", or "" for the counter.
func thawMethod(s *plan.Step) string {
	switch {
	case says(s.Do, "cold water"):
		return "water"
	case inCold(s) == "fridge" || s.Keeps.Place == "fridge":
		return "fridge"
	case says(s.Do, "microwave"):
		return "microwave"
	}
	return ""
}

// thaw looks at one frozen ingredient.
func (f *finder) thaw(d *plan.Dish, steps []int, line plan.Ingredient, k kind) {
	first := steps[0]
	if line.Step >= 0 {
		first = line.Step
	}
	pounds, weighed := pounds(line)
	need := ThawFridge(pounds)
	size := "it"
	if weighed {
		size = fmt.Sprintf("a piece of %s", f.mass(pounds))
	}
	i := f.thawStep(steps, k)
	if i < 0 {
		for _, s := range steps {
			if says(f.p.Steps[s].Do, "from frozen", "frozen") {
				return // goes in frozen
			}
		}
		text := "no step thaws it"
		if weighed {
			text += fmt.Sprintf(": %s takes up to %s in the refrigerator", size, long(need))
		}
		f.add("thaw", first, text, fmt.Sprintf("add the chore `%s`, and let its first step follow it with `after: [%s]`", f.thawChore(line, k, need, d.Course), "thaw-the-"+strings.ReplaceAll(thawName(line), " ", "-")))
		return
	}
	s := &f.p.Steps[i]
	method := thawMethod(s)
	if method == "water" || method == "microwave" {
		for _, j := range f.followers[i] {
			if wait := f.gap(i, j); wait > atOnce {
				f.add("thaw", i, fmt.Sprintf("thawed in the %s, it waits %s", method, plan.Spell(wait)), "cook it at once; only what thaws in the refrigerator keeps")
				return
			}
		}
	}
	got := f.length(i)
	if s.Keeps.Place == "fridge" {
		for _, j := range f.followers[i] {
			got += f.gap(i, j)
		}
	}
	switch {
	case !weighed:
	case method == "fridge" && got < need:
		f.add("thaw", i, fmt.Sprintf("%s has %s in the refrigerator; it takes up to %s", size, long(got), long(need)),
			"begin sooner: a day for each 4 pounds (1.8 kg), or finish it in cold water changed every 30 minutes")
	case method == "fridge" && got > need+thawed(k).High:
		f.add("thaw", i, fmt.Sprintf("%s has %s in the refrigerator; it takes up to %s, and keeps %s then", size, long(got), long(need), span(thawed(k).Low, thawed(k).High)), "begin later")
	case method == "water" && got < ThawWater(pounds):
		f.add("thaw", i, fmt.Sprintf("%s has %s in cold water; it takes %s", size, plan.Spell(got), plan.Spell(ThawWater(pounds))),
			"begin sooner: 30 minutes for each pound (an hour and 6 minutes a kilogram), changing the water every 30 minutes, and cook it at once")
	}
}

// thawStep is the step that thaws food of a kind: of the dish, or a chore that names
// it; -1 for none.
func (f *finder) thawStep(steps []int, k kind) int {
	for _, i := range steps {
		if says(f.p.Steps[i].Do, thawWords...) {
			return i
		}
	}
	for i := range f.p.Steps {
		if f.chore(i) && !f.skipped(i) && says(f.p.Steps[i].Do, thawWords...) && kindsIn(f.p.Steps[i].Do)&k != 0 {
			return i
		}
	}
	return -1
}

// mass writes a weight in the plan's units.
func (f *finder) mass(pounds float64) string {
	if f.p.Units == plan.Metric {
		return trimmed(pounds*measure.Named("pound").Size/1000) + " kg"
	}
	return trimmed(pounds) + " lb"
}

func trimmed(x float64) string { return strconv.FormatFloat(float64(int(x*10+0.5))/10, 'f', -1, 64) }

// thawChore is a chore as a plan has it, for the course that it must be done before.
func (f *finder) thawChore(line plan.Ingredient, k kind, need time.Duration, course int) string {
	spare := thawed(k).Low
	before := ""
	if len(f.p.Courses) > 1 {
		before = ", before: " + strconv.Quote(f.p.Courses[course].Name)
	}
	return fmt.Sprintf("{do: Thaw the %s, waits: %dd to %dd in fridge%s, ahead: %dd}",
		thawName(line), need/day, (need+spare)/day, before, (need+spare)/day+1)
}

// thawed is how long food of a kind keeps after it has thawed in the refrigerator.
func thawed(k kind) Span {
	if k&(redMeat|pork) != 0 && k&(ground|poultry|seafood) == 0 {
		return thawing[0].ThenRed
	}
	return thawing[0].ThenPoultry
}

// thawName is what the line calls the food: "turkey".
func thawName(line plan.Ingredient) string {
	for _, h := range kindWords.find(line.Text) {
		if h.value&(meats|seafood) != 0 {
			return h.text
		}
	}
	return "food"
}

// pounds returns the weight of the heaviest single piece of an ingredient, as far as
// its line says it.
func pounds(i plan.Ingredient) (float64, bool) {
	line := ingredient.Of(i, measure.US) // masses are the same in every system
	best := 0.0
	for _, a := range append([]ingredient.Amount{line.Each, line.Amount}, line.Also...) {
		if a.Unit != nil && a.Unit.Dimension == measure.Mass && (best == 0 || line.Each.Unit == nil) {
			best = max(best, a.Hi*a.Unit.Size/measure.Named("pound").Size)
		}
	}
	return best, best > 0
}
