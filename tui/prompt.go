package tui

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
)

// ask opens a prompt; esc leads back to where it was opened.
func (m *Model) ask(p prompt) {
	m.prompt = p
	m.enter(Prompt)
}

// askNote asks what to write down, of the step that is opened or marked, else of the dinner.
func (m *Model) askNote() {
	p := prompt{what: forNote, title: "Note", hint: "what to remember", step: -1}
	if r, ok := m.chosen(); ok && r.stepOf() >= 0 {
		p.step = r.stepOf()
		p.title = "Note, " + run.StepName(m.state.Plan, p.step)
	}
	m.ask(p)
}

// accept takes what was typed, or says what would be right.
func (m *Model) accept(k KeyMsg) []Effect {
	p, text := m.prompt, strings.TrimSpace(m.prompt.line.text)
	var effects []Effect
	switch p.what {
	case forTimer:
		label, minutes, err := parseTimer(text)
		if err != nil {
			m.tell(err.Error())
			return nil
		}
		d := time.Duration(minutes) * time.Minute
		effects = m.record(fmt.Sprintf("timer %s, %s", label, span(d)), k, run.Event{Kind: run.TimerSet, Text: label, By: d})
	case forMinutes:
		minutes, err := parseMinutes(text)
		if err != nil {
			m.tell(err.Error())
			return nil
		}
		effects = m.more(p.target, time.Duration(minutes)*time.Minute, k)
	case forWhen:
		at, err := m.parseWhen(text, p.unconf.At, k.At)
		if err != nil {
			m.tell(err.Error())
			return nil
		}
		one := m.moment
		one.Unconfirmed = []run.Unconfirmed{{Cue: p.unconf.Cue, At: at}}
		effects = m.record(p.unconf.Cue.Text+", at "+m.dayTime(at), k, run.AllAsPlanned(one)...)
	case forSpan:
		e := p.event
		e.At = k.At
		if text != "" {
			minutes, err := parseMinutes(text)
			if err != nil {
				m.tell(err.Error() + "; nothing, for without end")
				return nil
			}
			e.By = time.Duration(minutes) * time.Minute
		}
		effects = m.record(said(m.state.Plan, e), k, e)
	case forHeat:
		temp, err := parseTemp(text, m.state.Plan.Units)
		if err != nil {
			m.tell(err.Error())
			return nil
		}
		e := run.Event{Kind: run.Reading, Step: m.state.Plan.Steps[p.step].ID, Temp: &temp}
		effects = m.record(said(m.state.Plan, e), k, e)
	case forNote:
		if text == "" {
			m.tell("nothing is written yet: a few words, or esc")
			return nil
		}
		e := run.Event{Kind: run.Noted, Text: text}
		if p.step >= 0 {
			e.Step = m.state.Plan.Steps[p.step].ID
		}
		effects = m.record(said(m.state.Plan, e), k, e)
	case forStart, forEnd:
		at, err := m.parseWhen(text, k.At, k.At)
		if err != nil {
			m.tell(err.Error())
			return nil
		}
		end := p.what == forEnd
		effects = m.record(m.stepSaid(p.step, end, at), k, m.corrected(p.step, end, at)...)
	}
	m.prompt = prompt{}
	m.exit()
	return effects
}

// longestTimer is the greatest number of minutes that can be typed: a day.
const longestTimer = 24 * 60

func parseMinutes(s string) (int, error) {
	s = strings.TrimSpace(strings.TrimRight(s, "min "))
	n, err := strconv.Atoi(s)
	if err != nil || n < 1 || n > longestTimer {
		return 0, fmt.Errorf("%q is not a number of minutes from 1 to %d", s, longestTimer)
	}
	return n, nil
}

// parseTimer reads a label with the minutes at its end: "tea 4", "4", "tea 4 min".
func parseTimer(s string) (label string, minutes int, err error) {
	fields := strings.Fields(s)
	if n := len(fields); n > 1 && strings.HasPrefix(fields[n-1], "min") {
		fields = fields[:n-1]
	}
	if len(fields) == 0 {
		return "", 0, fmt.Errorf("a timer needs its minutes: tea 4")
	}
	last := len(fields) - 1
	minutes, err = parseMinutes(fields[last])
	if err != nil {
		return "", 0, fmt.Errorf("a timer needs its minutes at the end, 1 to %d: tea 4", longestTimer)
	}
	if label = strings.Join(fields[:last], " "); label == "" {
		label = fmt.Sprintf("%d min", minutes)
	}
	return label, minutes, nil
}

// parseWhen reads a time of day: of those before now the one nearest to when it
// was to happen, which may be days ago.
func (m *Model) parseWhen(s string, planned, now time.Time) (time.Time, error) {
	t, err := time.Parse("15:04", strings.Replace(s, ".", ":", 1))
	if err != nil {
		return time.Time{}, fmt.Errorf("%q is not a time of day such as 17:20", s)
	}
	l := planned.In(m.zone)
	var best time.Time
	for day := l.Day() - 1; day <= l.Day()+1; day++ {
		at := time.Date(l.Year(), l.Month(), day, t.Hour(), t.Minute(), 0, 0, m.zone)
		if !at.After(now) && (best.IsZero() || at.Sub(planned).Abs() < best.Sub(planned).Abs()) {
			best = at
		}
	}
	return best, nil
}

// parseTemp reads a temperature: "165", in the plan's units, or "165F", "74 °C".
func parseTemp(s string, u plan.Units) (celsius float64, err error) {
	t := strings.ToUpper(strings.NewReplacer(" ", "", "°", "", ",", ".").Replace(s))
	switch {
	case strings.HasSuffix(t, "F"):
		t, u = t[:len(t)-1], plan.Fahrenheit
	case strings.HasSuffix(t, "C"):
		t, u = t[:len(t)-1], plan.Metric
	}
	v, err := strconv.ParseFloat(t, 64)
	c := plan.Celsius(v)
	if u == plan.Fahrenheit {
		c = plan.FromFahrenheit(v)
	}
	if err != nil || !(c >= coldest && c <= hottest) {
		return 0, fmt.Errorf("%q is no temperature inside food: write it like %s", s, strings.ReplaceAll(u.Temp(74), " °", ""))
	}
	return float64(c), nil
}

// Bounds of what a thermometer shows inside food, in °C: a freezer and boiling
// sugar. Common practice.
const (
	coldest plan.Celsius = -40
	hottest plan.Celsius = 200
)
