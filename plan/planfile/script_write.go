package planfile

import (
	"bytes"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/mishap"
)

// WriteScript writes mishaps of a plan as a script that Mishaps reads: what is read is
// what was written, but for Pos. Times are told by the day of the dinner, so that the
// script goes with it when it is moved; only past midnight they have a date. The lines
// of head and left stand above as comments.
func WriteScript(p *plan.Plan, ms []mishap.Mishap, head, left []string) []byte {
	list := &yaml.Node{Kind: yaml.SequenceNode}
	for i := range ms {
		list.Content = append(list.Content, mishapNode(p, &ms[i]))
	}
	if len(ms) == 0 {
		list.Style = yaml.FlowStyle
	}
	var b bytes.Buffer
	for _, line := range append(append([]string{}, head...), left...) {
		fmt.Fprintf(&b, "# %s\n", clean([]rune(strings.Join(strings.Fields(line), " "))))
	}
	enc := yaml.NewEncoder(&b)
	enc.SetIndent(2)
	if err := enc.Encode(&yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{word("mishaps"), list}}); err != nil {
		panic("planfile: a script cannot be written: " + err.Error())
	}
	return b.Bytes()
}

func word(s string) *yaml.Node {
	n := &yaml.Node{}
	n.SetString(s)
	return n
}

// mishapNode is one mishap on a line: {at: "17:40", step: lamb/roast, longer: 25m}.
func mishapNode(p *plan.Plan, m *mishap.Mishap) *yaml.Node {
	n := &yaml.Node{Kind: yaml.MappingNode, Style: yaml.FlowStyle}
	put := func(key string, v *yaml.Node) { n.Content = append(n.Content, word(key), v) }
	if !m.At.IsZero() {
		at := word(scriptTime(p, m.At))
		at.Style = yaml.DoubleQuotedStyle
		put("at", at)
	}
	if m.Step >= 0 {
		put("step", word(p.Steps[m.Step].ID))
	}
	if m.Dish >= 0 {
		put("dish", word(p.Dishes[m.Dish].Name))
	}
	if m.Cook >= 0 {
		put("cook", word(p.Kitchen.Cooks[m.Cook].Name))
	}
	if m.Oven >= 0 {
		put("oven", word(p.Kitchen.Ovens[m.Oven].Name))
	}
	if m.Burner != plan.AnyBurner {
		put("burner", word(m.Burner.String()))
	}
	yes := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!bool", Value: "true"}
	switch m.Kind {
	case mishap.Longer, mishap.Takes, mishap.Away, mishap.Silent:
		put(string(m.Kind), word(written(m.By)))
	case mishap.Reading:
		put("reading", word(scriptTemp(p.Units, m.Temp)))
	case mishap.Burnt:
		again := burntWords[1]
		if m.Again {
			again = burntWords[0]
		}
		put("burnt", word(again))
	case mishap.Dropped, mishap.Back, mishap.Fails, mishap.Works:
		put(string(m.Kind), yes)
	case mishap.Hold, mishap.Release:
		put(string(m.Kind), word(p.Courses[m.Course].Name))
	case mishap.GuestsLate:
		put("guests", word(guestWords[0]))
	case mishap.TakeRemedy:
		put("take_remedy", &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!int", Value: strconv.Itoa(m.Remedy)})
	}
	if m.Kind == mishap.Hold && m.By > 0 || m.Kind == mishap.GuestsLate {
		put("by", word(written(m.By)))
	}
	return n
}

// scriptTime writes an instant by the day of the dinner: "17:40", "-1d 18:30"; after
// that day with its date.
func scriptTime(p *plan.Plan, at time.Time) string {
	at = at.In(p.Table.Location())
	day := time.Date(at.Year(), at.Month(), at.Day(), 12, 0, 0, 0, time.UTC)
	y, m, d := p.Table.Date()
	switch days := int(time.Date(y, m, d, 12, 0, 0, 0, time.UTC).Sub(day).Hours()) / 24; {
	case days == 0:
		return at.Format("15:04")
	case days > 0:
		return fmt.Sprintf("-%dd %s", days, at.Format("15:04"))
	}
	return at.Format("2006-01-02 15:04")
}

// scriptTemp writes a temperature in the plan's unit, with as many digits as it takes
// to read the same.
func scriptTemp(u plan.Units, c plan.Celsius) string {
	v, unit, back := float64(c), "C", func(v float64) plan.Celsius { return plan.Celsius(v) }
	if u == plan.Fahrenheit {
		v, unit, back = c.Fahrenheit(), "F", plan.FromFahrenheit
	}
	for digits := 0; digits <= 6; digits++ {
		s := strconv.FormatFloat(v, 'f', digits, 64)
		if near, err := strconv.ParseFloat(s, 64); err == nil && math.Abs(float64(back(near)-c)) < 1e-9 {
			return s + unit
		}
	}
	return strconv.FormatFloat(float64(c), 'f', -1, 64) + "C"
}
