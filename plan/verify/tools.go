package verify

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// tools: no more of a tool is in use, or holds food, than there is, and none goes
// from one dish to another unwashed.
func (c *checker) tools() {
	for t, tool := range c.p.Kitchen.Tools {
		held := append(c.used(t), c.vessels(t)...)
		c.report(plan.BreakTool, c.over(held, fixed(tool.Count)), func(o tooMuch) string {
			return fmt.Sprintf("%s: %d of %s wanted, the kitchen has %d", c.names(o.steps), o.worst, tool.Name, tool.Count)
		})
		c.washing(tool, held)
	}
}

// used returns what steps use of a tool while they last.
func (c *checker) used(tool int) []need {
	return c.whileItLasts(func(i int) int {
		sum := 0
		for _, u := range c.p.Steps[i].Uses {
			if u.Tool == tool {
				sum += u.Count
			}
		}
		return sum
	})
}

// vessels returns what holds food of a tool: from the start of each step that
// names it until the next of the dish with the same vessel starts, else until the
// step ends. Where several are next, the food of the last to start is still there.
func (c *checker) vessels(tool int) []need {
	out := c.whileItLasts(func(i int) int {
		if c.holdsIn(i, tool) {
			return c.p.Steps[i].Vessel.Count
		}
		return 0
	})
	for k := range out {
		for _, j := range c.nextIn(tool, out[k].step) {
			out[k].to = max(out[k].to, c.slots[j].from)
		}
	}
	return out
}

// holdsIn reports whether step i has its food in a tool.
func (c *checker) holdsIn(i, tool int) bool {
	v := c.p.Steps[i].Vessel
	return v != nil && v.Tool == tool && !c.skipped(i)
}

// nextIn returns the steps of its dish that take over the vessel of step i: those
// that follow it with nothing in that vessel in between.
func (c *checker) nextIn(tool, i int) []int {
	first, later := map[int]bool{}, map[int]bool{}
	var look func(i int, seen map[int]bool, past bool)
	look = func(i int, seen map[int]bool, past bool) {
		for _, j := range c.followers[i] {
			if c.p.Steps[j].Dish != c.p.Steps[i].Dish || seen[j] {
				continue
			}
			seen[j] = true
			if past || !c.holdsIn(j, tool) {
				look(j, seen, past)
			}
		}
	}
	look(i, first, false)
	var out []int
	for j := range first {
		if c.holdsIn(j, tool) {
			out = append(out, j)
			look(j, later, true)
		}
	}
	return slices.DeleteFunc(out, func(j int) bool { return later[j] })
}

// piece is one of a tool: when it was last put down, and by which step.
type piece struct {
	step int // -1: clean from the beginning
	free time.Duration
}

// washing: a piece of a tool is washed before another dish takes it. Pieces are
// handed out by time: to each dish first its own unwashed ones, the last put down
// before others, for nobody else can take those so soon; then any clean one. No
// other way of handing them out gets by with fewer, so what is told here cannot be
// mended by taking other pieces.
func (c *checker) washing(tool plan.Tool, held []need) {
	if tool.Wash <= 0 {
		return
	}
	held = slices.DeleteFunc(slices.Clone(held), need.empty)
	slices.SortStableFunc(held, func(a, b need) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.step, b.step)) })
	pieces := slices.Repeat([]piece{{step: -1}}, tool.Count)
	for _, h := range held {
		var unwashed *piece
		var clean time.Duration
		for range h.amount {
			p := c.pick(pieces, h, up(tool.Wash))
			if p == nil {
				break // none is left: too many in use, which is told elsewhere
			}
			if at := c.cleanFor(*p, h, up(tool.Wash)); at > h.from && (unwashed == nil || at > clean) {
				was := *p
				unwashed, clean = &was, at
			}
			*p = piece{h.step, h.to}
		}
		if unwashed != nil && !c.startIsFact(h.step) {
			c.stepBreak(plan.BreakTool, h.step, h.from, clean-h.from, fmt.Sprintf("%s starts at %s: %s is not washed after %s until %s",
				c.p.StepName(h.step), c.clock(h.from), tool.Name, c.p.StepName(unwashed.step), c.clock(clean)))
		}
	}
}

// cleanFor returns the moment from which a piece may be taken for a need.
func (c *checker) cleanFor(p piece, h need, wash time.Duration) time.Duration {
	switch {
	case p.step < 0:
		return h.from
	case c.p.Steps[p.step].Dish == c.p.Steps[h.step].Dish:
		return p.free
	}
	return p.free + wash
}

// pick returns the piece to take for a need: an unwashed one of its own dish, the
// last put down first; a clean one; the one that is clean soonest. nil where all
// are in use.
func (c *checker) pick(pieces []piece, h need, wash time.Duration) *piece {
	rank := func(p *piece) (int, time.Duration) {
		switch {
		case p.step >= 0 && c.p.Steps[p.step].Dish == c.p.Steps[h.step].Dish:
			return 0, -p.free
		case c.cleanFor(*p, h, wash) <= h.from:
			return 1, 0
		}
		return 2, p.free
	}
	var best *piece
	for k := range pieces {
		p := &pieces[k]
		if p.step >= 0 && p.free > h.from {
			continue // in use
		}
		if best != nil {
			a, at := rank(best)
			b, bt := rank(p)
			if a < b || a == b && at <= bt {
				continue
			}
		}
		best = p
	}
	return best
}
