package tui

import (
	"slices"
	"strings"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// What each oven does now, and is to do next.

// ovenLines is how many lines the ovens take: one for what each does now, one
// for what is next.
func (m *Model) ovenLines() int {
	n := 0
	for i := range m.moment.Ovens {
		n++
		if m.moment.Ovens[i].Next != nil {
			n++
		}
	}
	return n
}

// viewOven shows what each oven is doing, and what it is to do next.
func (m *Model) viewOven(w, h int) []string {
	var out []string
	units := m.state.Plan.Units
	for i := range m.moment.Ovens {
		o := &m.moment.Ovens[i]
		name := ""
		if len(m.moment.Ovens) > 1 && o.Oven < len(m.state.Plan.Kitchen.Ovens) {
			name = m.state.Plan.Kitchen.Ovens[o.Oven].Name + ": "
		}
		var l *line
		switch {
		case o.Oven < len(m.state.Plan.Kitchen.Ovens) && m.ovenFailed(m.state.Plan.Kitchen.Ovens[o.Oven].Name):
			l = m.grid(w, "", theme.Late, "failed", time.Time{}).put(theme.Late, name+"now "+units.Temp(o.Temp))
		case !o.On:
			l = m.grid(w, "", theme.Dim, "off", time.Time{}).put(theme.Dim, name+"now "+units.Temp(o.Temp))
		case !o.Ready.IsZero() && o.Ready.After(m.now):
			l = m.grid(w, "", theme.Oven, countdown(o.Ready.Sub(m.now)), o.Ready)
			l.put(theme.Oven, name+units.Temp(o.Set)).put(theme.Plain, ", now "+units.Temp(o.Temp))
		default:
			l = m.grid(w, "", theme.Oven, "ready", time.Time{}).put(theme.Oven, name+units.Temp(o.Set))
		}
		if inside := m.inside(o.Inside); inside != "" {
			l.put(theme.Dim, trim("  "+m.th.Set.Dot+" "+inside, w-l.w-1, m))
		}
		out = append(out, l.done())
		if n := o.Next; n != nil {
			l := m.grid(w, "", theme.Plain, countdown(n.At.Sub(m.now)), n.At)
			if n.Off {
				l.put(theme.Plain, name+"switch off")
			} else {
				l.put(theme.Plain, name+"then ").put(theme.Oven, units.Temp(n.To))
				l.put(theme.Plain, ", ready "+run.DayTime(n.Ready, n.At, m.zone))
				if n.For >= 0 {
					l.whole(theme.Plain, ", for "+m.dish(n.For))
				}
			}
			out = append(out, l.done())
		}
	}
	return out[:min(h, len(out))]
}

// inside names the dishes in an oven, each once.
func (m *Model) inside(steps []int) string {
	var names []string
	for _, s := range steps {
		if n := m.dish(s); !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return strings.Join(names, ", ")
}

func (m *Model) dish(step int) string {
	if step < 0 || step >= len(m.state.Plan.Steps) {
		return ""
	}
	return run.DishName(m.state.Plan, step)
}
