package ingredient

import (
	"fmt"
	"strings"
)

// show writes a parse in one line, for tables of expected ones: amount [each]
// {also} | item | note | flags.
func show(l Line) string {
	how := []string{}
	if s := showAmount(l.Amount); s != "" {
		how = append(how, s)
	}
	if s := showAmount(l.Each); s != "" {
		how = append(how, "["+s+"]")
	}
	for _, a := range l.Also {
		how = append(how, "{"+showAmount(a)+"}")
	}
	flags := []string{}
	for _, f := range []struct {
		is   bool
		name string
	}{{l.Heading, "heading"}, {l.Optional, "optional"}, {l.ToTaste, "to taste"}, {l.Frozen, "frozen"}, {l.More, "more"}, {l.PerPerson, "per person"}} {
		if f.is {
			flags = append(flags, f.name)
		}
	}
	out := []string{strings.Join(how, " "), l.Item}
	if l.Note != "" || len(flags) > 0 {
		out = append(out, l.Note)
	}
	if len(flags) > 0 {
		out = append(out, strings.Join(flags, ", "))
	}
	return strings.TrimSpace(strings.Join(out, " | "))
}

func showAmount(a Amount) string {
	if a.None() {
		return ""
	}
	parts := []string{}
	if a.About {
		parts = append(parts, "about")
	}
	switch {
	case a.Lo == 0:
		parts = append(parts, "some")
	case a.Lo == a.Hi:
		parts = append(parts, fmt.Sprintf("%.4g", a.Lo))
	default:
		parts = append(parts, fmt.Sprintf("%.4g-%.4g", a.Lo, a.Hi))
	}
	if a.Unit != nil {
		parts = append(parts, a.Unit.Name)
	}
	if a.Pack != "" {
		parts = append(parts, a.Pack)
	}
	return strings.Join(parts, " ")
}
