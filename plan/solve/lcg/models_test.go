package lcg

import (
	"flag"
	"fmt"
	"math/rand/v2"
	"runtime/debug"
	"testing"
)

var (
	models = flag.Int("models", 300, "tiny models that the solver is audited on")
	seed   = flag.Uint64("seed", 0, "audit on the model of this seed alone")
)

// Restarts and deletions are to happen within tiny models, and buckets to hold
// more than one bound.
func init() { restartUnit, firstForget, mostBuckets = 2, 6, 3 }

// TestModels audits the solver on tiny models drawn at random: every
// explanation and learnt clause, every status, core and optimum against the
// list of all assignments.
func TestModels(t *testing.T) {
	t.Parallel()
	const shards = 4
	from, to := uint64(1), uint64(*models)+1
	if *seed > 0 {
		from, to = *seed, *seed+1
	}
	for shard := range uint64(shards) {
		t.Run(fmt.Sprint("shard-", shard), func(t *testing.T) {
			t.Parallel()
			var total tally
			for n := from + shard; n < to; n += shards {
				one := audit(t, n, allKinds)
				if t.Failed() {
					t.FailNow()
				}
				total.add(one)
			}
			t.Logf("%+v", total)
		})
	}
}

// TestCounts counts the solutions of models with one kind of rule only, by
// forbidding each one found, and compares with the list of all assignments.
func TestCounts(t *testing.T) {
	t.Parallel()
	for name, kinds := range map[string]kind{
		"arc":              arcs,
		"arc-if":           arcs | conditions,
		"clause":           clauses,
		"linear":           linears,
		"linear-if":        linears | conditions,
		"cumulative":       cumulatives,
		"cumulative-if":    cumulatives | options,
		"cumulative-group": cumulatives | options | groups,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var total tally
			for n := uint64(1); n <= max(40, uint64(*models)/50) && !t.Failed(); n++ {
				total.add(audit(t, n, kinds))
			}
			if total.Solutions == 0 || total.Conflicts == 0 {
				t.Errorf("nothing was counted")
			}
			t.Logf("%+v", total)
		})
	}
}

// tally is what an audit saw.
type tally struct {
	Models, None int // in all, and without a solution
	Explanations int
	Solutions    int // counted one by one
	Stats
}

func (n *tally) add(o tally) {
	n.Models += o.Models
	n.None += o.None
	n.Explanations += o.Explanations
	n.Solutions += o.Solutions
	n.Conflicts += o.Conflicts
	n.Decisions += o.Decisions
	n.Propagations += o.Propagations
	n.Restarts += o.Restarts
	n.Stats.Learnt += o.Stats.Learnt
}

// audit draws the model of a seed, solves it in several ways and reports what
// was wrong.
func audit(t *testing.T, seed uint64, kinds kind) tally {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, uint64(kinds)))
	m := draw(rng, kinds)
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("model %d (go test -run '%s' -seed %d) panics: %v\n%s\n%s", seed, t.Name(), seed, r, m, debug.Stack())
		}
	}()
	p := newSpace(m)
	a := watched(m, p)
	d := &drawer{Rand: rng, m: m, kinds: kinds}
	for k := range m.low {
		d.numbers = append(d.numbers, Var(2*k))
	}
	if d.oneIn(2) {
		a.s.Branch = d.branch
	}
	// Once as drawn, then with holes in the space, on which there is more to learn.
	found := 0
	for _, most := range []int{15, 60} {
		a.walk(d)
		a.ask(d)
		a.minimum(d)
		found += a.enumerate(most)
	}
	a.kept()
	if a.failed != nil {
		t.Errorf("model %d (go test -run '%s' -seed %d): %v\n%s", seed, t.Name(), seed, a.failed, m)
	}
	one := tally{Models: 1, Explanations: a.explained, Solutions: found, Stats: a.s.Stats}
	if p.solutions.first() < 0 {
		one.None = 1
	}
	return one
}
