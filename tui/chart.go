package tui

import (
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
	"example.org/kettledrum/tui/theme"
)

// The chart of readings is so high, without the line of its times.
const leastChart, mostChart = 3, 7

// heatChart draws what the thermometer showed inside a step's food: the readings,
// the target as a line, and on it when it will be reached, between when and when.
// Into h lines; none where there is too little room.
func (m *Model) heatChart(i, w, h int) []string {
	in, step := &m.state.Steps[i].Inside, &m.state.Plan.Steps[i]
	rows := min(mostChart, h-1)
	if len(in.Readings) == 0 || rows < leastChart {
		return nil
	}
	target, low, high := step.Until.Temp, in.Readings[0].Temp, in.Readings[0].Temp
	from, to := in.Readings[0].At, m.now
	for _, r := range in.Readings {
		low, high = min(low, r.Temp), max(high, r.Temp)
		if r.At.After(to) {
			to = r.At
		}
	}
	if step.Until.HasTemp {
		low, high = min(low, target-1), max(high, target)
	}
	if st := m.state.Steps[i].Started; !st.IsZero() && st.Before(from) {
		from = st
	}
	f := in.Forecast
	moves := f != nil && f.Basis != heat.Reached && f.Moves()
	if moves && f.Late.After(to) {
		to = f.Late
	}
	cells := max(10, w-indent-10)
	per := max(time.Minute, (to.Sub(from)/time.Duration(cells-1) + time.Second).Truncate(time.Second))
	col := func(t time.Time) int { return max(0, min(cells-1, int(t.Sub(from)/per))) }
	row := func(t plan.Celsius) int {
		return max(0, min(rows-1, int(float64(high-t)/float64(max(1, high-low))*float64(rows-1)+0.5)))
	}
	type dot struct {
		s   string
		tok theme.Token
	}
	grid := make([][]dot, rows)
	for y := range grid {
		grid[y] = make([]dot, cells)
	}
	if step.Until.HasTemp {
		for x := range cells {
			grid[row(target)][x] = dot{m.th.Set.Track, theme.Track}
		}
	}
	for y := range grid {
		if x := col(m.now); grid[y][x].s == "" {
			grid[y][x] = dot{m.th.Set.NowLine, theme.Dim}
		}
	}
	if moves {
		for x := col(f.Early); x <= col(f.Late); x++ {
			grid[row(target)][x] = dot{m.th.Set.Chosen[1], theme.Look}
		}
		grid[row(target)][col(f.Done)] = dot{m.th.Set.Serve, theme.Look}
	}
	for _, r := range in.Readings {
		grid[row(r.Temp)][col(r.At)] = dot{m.th.Set.Going, theme.Oven}
	}
	var out []string
	for y := range grid {
		l := newLine(m.th.Theme, w)
		switch {
		case y == 0 && len(out) == 0:
			l.put(theme.Dim, " INSIDE")
		}
		label := ""
		switch y {
		case row(target):
			label = m.state.Plan.Units.Temp(target)
		case rows - 1:
			label = m.state.Plan.Units.Temp(low)
		}
		l.to(indent).right(theme.Dim, label, 7).put(theme.Plain, "  ")
		for x := 0; x < cells; {
			d := grid[y][x]
			if d.s == "" {
				l.to(l.w + 1)
				x++
				continue
			}
			n := x
			for n < cells && grid[y][n] == d {
				n++
			}
			l.put(d.tok, strings.Repeat(d.s, n-x))
			x = n
		}
		out = append(out, l.done())
	}
	times := newLine(m.th.Theme, w).to(indent+9).put(theme.Dim, m.clockTime(from))
	at := indent + 9 + col(m.now) - 2
	if at > times.w+1 {
		times.to(at).put(theme.Plain, m.clockTime(m.now))
	}
	if moves && indent+9+col(f.Done) > times.w+3 {
		times.to(indent+9+col(f.Done)-2).put(theme.Look, m.clockTime(f.Done))
	}
	return append(out, times.done())
}
