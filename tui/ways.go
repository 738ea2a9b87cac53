package tui

import (
	"fmt"
	"strings"
	"time"

	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/run"
)

// Ways out of what is late.

// seekRemedies has ways out looked for after something has changed. What was known
// before is out of date.
func (m *Model) seekRemedies() []Effect {
	if m.following || m.moment.Finished {
		return nil
	}
	m.seeking = true
	return []Effect{SeekRemedies{}}
}

// ways are the ways out of the dinner as it is now: those of the dinner as it was
// before the last event are not among them.
func (m *Model) ways() []remedy.Remedy {
	if m.writing != nil || m.remediesOf != len(m.state.Events) {
		return nil
	}
	return m.remedies
}

// staleWays are what is said of ways out that were overtaken by events.
const staleWays = "the dinner has changed since: " + workedOut + " anew"

// workedOut is said while ways out are looked for.
const workedOut = "ways out are being worked out"

// dropStaleWays closes a list of ways out that was overtaken by events.
func (m *Model) dropStaleWays() {
	if m.mode == Choices && m.choices.ways && len(m.ways()) == 0 {
		m.choices = choices{}
		m.exit()
		m.tell(staleWays)
	}
}

// takeRemedies notes the ways out that were found, unless something was told
// meanwhile.
func (m *Model) takeRemedies(msg RemediesMsg) {
	if msg.After != len(m.state.Events) {
		return
	}
	m.remedies, m.remediesOf, m.seeking = msg.Found, msg.After, false
	if strings.Contains(m.message.text, workedOut) {
		m.message = note{}
	}
}

// lateCourse names the first course that will be late, and by how much.
func (m *Model) lateCourse() (name string, late time.Duration) {
	for i := range m.moment.Courses {
		if c := &m.moment.Courses[i]; c.Served.IsZero() && c.Late >= time.Minute {
			return m.state.Plan.Courses[c.Course].Name, c.Late
		}
	}
	return "", 0
}

// showRemedies offers them.
func (m *Model) showRemedies() {
	title := "Ways out"
	if name, late := m.lateCourse(); name != "" {
		title = fmt.Sprintf("%s will be %s late: what to give up?", name, span(late))
	}
	var of []choice
	for _, r := range m.ways() {
		more := r.Gain
		if r.Price != "" {
			more += "\nbut " + r.Price
		}
		of = append(of, choice{text: r.Do, more: more, remedy: &r})
	}
	m.offer(title, of)
	m.choices.ways = true
}

// remediesKnown is the line that tells of ways out, empty for none.
func (m *Model) remediesKnown() string {
	n := len(m.ways())
	name, late := m.lateCourse()
	switch {
	case n == 0:
		return ""
	case name == "" && n == 1:
		return "1 way out: "
	case name == "":
		return fmt.Sprintf("%d ways out: ", n)
	case n == 1:
		return fmt.Sprintf("%s %s late, 1 way out: ", name, span(late))
	}
	return fmt.Sprintf("%s %s late, %d ways out: ", name, span(late), n)
}

// whyWays is what ways out are looked for because of: "Main 12 min late"; empty for
// nothing.
func (m *Model) whyWays() string {
	if name, late := m.lateCourse(); name != "" {
		return fmt.Sprintf("%s %s late", name, span(late))
	}
	if len(m.broken()) > 0 {
		return "a rule will not be kept"
	}
	return ""
}

// remediesSought is the line that tells that ways out are being worked out.
func (m *Model) remediesSought() string {
	why := m.whyWays()
	switch {
	case !m.seeking || why == "" || m.following || len(m.ways()) > 0:
		return ""
	case len(m.remedies) > 0:
		return why + ": " + workedOut + " anew"
	}
	return why + ": " + workedOut
}

// offRemedies says why no way out can be taken.
func offRemedies(m *Model) string {
	switch why := m.whyWays(); {
	case m.following || m.writing != nil:
		return offWriting(m)
	case len(m.ways()) > 0:
		return ""
	case why == "":
		return "no course is late: there is nothing to give up"
	case m.seeking:
		return m.remediesSought() + ", they come up here"
	default:
		return why + ": no way out was found that is worth it"
	}
}

// askInside asks what the thermometer shows inside a step's food.
func (m *Model) askInside() {
	i := m.measured()
	m.ask(prompt{what: forHeat, title: run.StepName(m.state.Plan, i), hint: "inside, such as " + m.state.Plan.Units.Temp(m.state.Plan.Steps[i].Until.Temp), step: i})
}

// measured is the step whose inside the thermometer is in: the marked one, else the
// only one that goes on until a temperature; -1 for none.
func (m *Model) measured() int {
	has := func(i int) bool { return i >= 0 && m.state.Plan.Steps[i].Until.HasTemp }
	if r, ok := m.chosen(); ok && has(r.stepOf()) {
		return r.stepOf()
	}
	if _, one := m.theStep(); one {
		return -1
	}
	only := -1
	for k := range m.moment.Going {
		if i := m.moment.Going[k].Step; has(i) {
			if only >= 0 {
				return -1
			}
			only = i
		}
	}
	return only
}

func offMeasure(m *Model) string {
	if m.measured() < 0 {
		return "mark the step whose food the thermometer is in: it must go on until a temperature"
	}
	return offWriting(m)
}
