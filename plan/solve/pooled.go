package solve

import (
	"fmt"
	"slices"

	"example.org/kettledrum/plan/solve/lcg"
)

// pools adds, for resources that can stand in for each other, their sum as one
// more resource: what any of them may serve fills the sum before it is decided
// which. It rules out nothing that the single ones allow, and sees sooner when
// there is too much.
func (m *model) pools(taken [][]lcg.Task) {
	seen := map[string]bool{}
	for _, u := range m.p.Uses {
		if len(u.Options) < 2 {
			continue
		}
		var pool []int
		for _, o := range u.Options {
			if len(o) > 0 && !slices.Contains(pool, o[0].Resource) {
				pool = append(pool, o[0].Resource)
			}
		}
		slices.Sort(pool)
		if key := fmt.Sprint(pool); len(pool) > 1 && !seen[key] {
			seen[key] = true
			m.pool(pool, taken)
		}
	}
}

// pool adds the sum of some resources, with every use all of whose options ask
// for one of them.
func (m *model) pool(pool []int, taken [][]lcg.Task) {
	var tasks []lcg.Task
	var guards []int
	most := int32(0)
	for _, r := range pool {
		guards = append(guards, m.p.Resources[r].Guard)
		most += m.p.Resources[r].Most()
		tasks = append(tasks, taken[r]...)
	}
	for _, u := range m.p.Uses {
		if m.isFact(u.From) && len(u.Options) == 1 || u.From.Act >= 0 && m.p.Acts[u.From.Act].Due || len(u.Options) == 0 {
			continue
		}
		least, ok := lcg.Task{Amount: -1}, true
		for _, o := range u.Options {
			k := slices.IndexFunc(o, func(d Demand) bool { return slices.Contains(pool, d.Resource) })
			if k < 0 || o[k].Plus > 0 {
				ok = false
				break
			}
			if d := o[k]; least.Amount < 0 || d.Amount < least.Amount {
				least = m.task(u, d, lcg.True)
			}
		}
		if ok {
			tasks = append(tasks, least)
		}
	}
	holds := m.guard(guards...)
	if m.guards != nil {
		m.scarce = append(m.scarce, scarce{most, slices.Clip(tasks), holds})
	}
	m.limited(most, tasks, holds)
}
