package tui

import (
	"fmt"
	"slices"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// What stands on the burners.

// burnerLines says what stands on the burners: all sizes in one line where there
// is room, else a line each.
func (m *Model) burnerLines(w int) []string {
	k := m.state.Plan.Kitchen.Burners
	if m.state.Timetable == nil || k.Large+k.Small+m.burnersFailed(plan.Large)+m.burnersFailed(plan.Small) == 0 {
		return nil
	}
	var parts []string
	var bad int // of parts, those with a failure: first, for the last ones may have no room
	for _, b := range []struct {
		size  plan.BurnerSize
		count int
	}{{plan.Large, k.Large}, {plan.Small, k.Small}} {
		failed := m.burnersFailed(b.size)
		if b.count+failed == 0 {
			continue
		}
		facts, taken := m.onBurners(b.size)
		free := b.count - taken
		switch {
		case free > 0 && len(facts)+failed == 0:
			facts = []string{"free"}
		case free > 0:
			facts = append(facts, fmt.Sprintf("%d free", free))
		}
		if failed > 0 { // first: nothing else in the line may cut it off
			facts = append([]string{fmt.Sprintf("%d failed", failed)}, facts...)
		}
		spell := func() string { return clean(fmt.Sprintf("%s: %s", b.size, strings.Join(facts, ", ")), m.th.ASCII) }
		text := spell()
		if last := len(facts) - 1; free > 0 && last > 0 && m.gridCells()+width(text) >= w { // what is free comes before names that are cut off
			facts = slices.Insert(facts[:last], 0, facts[last])
			text = spell()
		}
		if failed > 0 {
			parts = slices.Insert(parts, bad, text)
			bad++
		} else {
			parts = append(parts, text)
		}
	}
	if whole := strings.Join(parts, "   "); m.gridCells()+width(whole) < w {
		return []string{whole}
	}
	return parts
}

// onBurners names what stands on the burners of a size, with what is left, and
// counts the burners it takes.
func (m *Model) onBurners(size plan.BurnerSize) (on []string, taken int) {
	going := slices.Clone(m.moment.Going)
	slices.SortStableFunc(going, func(a, b run.Going) int { return a.Start.Compare(b.Start) })
	for i := range going {
		g := &going[i]
		if g.Step < 0 || m.state.Timetable.Slots[g.Step].Burner != size {
			continue
		}
		use := m.state.Plan.Steps[g.Step].Burner
		if use == nil {
			continue
		}
		taken += use.Count
		on = append(on, m.dish(g.Step))
	}
	return on, taken
}

func (m *Model) viewBurners(w, h int) []string {
	var out []string
	for _, s := range m.burnerLines(w) {
		if len(out) < h {
			l := newLine(m.th.Theme, w).to(m.gridCells())
			out = append(out, l.put(theme.Plain, cut(s, w-l.w-1, m.th.Set.More)).done())
		}
	}
	return out
}
