package risk

import (
	"math"
	"math/rand/v2"
	"time"

	"example.org/kettledrum/plan"
)

// What a step takes of which the plan gives no range: from a tenth less to a quarter
// more than it says. Common practice: what is written down is what it takes when all
// goes well, and more goes wrong than right.
const (
	DefaultShorter = 0.10
	DefaultLonger  = 0.25
)

// How much steps have in common: the correlation of the normal scores of two bakes
// in the same oven, and of two steps that tie a cook's hands. An oven that is ten
// degrees off is so for all that it bakes, a cook who is slow tonight is slow at
// everything; but much of a bake is the food's own, and more of a step by hand the
// step's own. No publication has figures for a home kitchen: common practice.
const (
	OvenCommon = 0.50
	PaceCommon = 0.25
)

// cells is into how many parts the table of a distribution divides the normal scores
// from −span to span. Between two entries it is a straight line: off by less than
// 2·10⁻⁵ of the distribution's width. Beyond them lie two runs in a thousand million.
const (
	cells = 1024
	span  = 6.0
)

// Sampler draws how long the steps of a plan take.
//
// Each uncertain step takes what its three points say, as a beta-PERT distribution
// (plan.Length.Percentile). Bakes in one oven have a factor in common, and so have
// the steps that tie a cook's hands: a Gaussian copula with one factor each,
//
//	X = F⁻¹(Φ(√ρ·G + √(1−ρ)·Z)), G of the group, Z of the step, both standard normal
//
// so that every step keeps its own distribution F exactly, and two steps of a group
// the correlation ρ of their normal scores. The inverse of F is a table: drawing it
// by gamma variates (Marsaglia and Tsang 2000) would leave no room for the factor.
//
// Whoever draws the same run of the same plan gets the same lengths, whatever the
// timetable is, on any number of cores: each run has a generator of its own.
type Sampler struct {
	steps  []drawn
	groups int
	// Ranges is how many steps have a range in the plan, Defaults how many have the
	// default spread.
	Ranges, Defaults int
	certain          []int64 // of each step its planned length
}

// drawn is an uncertain step.
type drawn struct {
	step       int
	least      float64   // nanoseconds
	width      float64   // from the shortest to the longest
	table      []float64 // how much of the width, at the normal scores of the grid
	group      int       // −1 for none
	load, rest float64   // √ρ, √(1−ρ)
}

// Spread returns the three points of a step: those of the plan, or the default
// spread about what it says. A wait has none.
func Spread(l plan.Length) plan.Length {
	if l.Elastic || l.Longest > l.Shortest {
		return l
	}
	l.Shortest = time.Duration(math.Round(float64(l.Likely) * (1 - DefaultShorter)))
	l.Longest = time.Duration(math.Round(float64(l.Likely) * (1 + DefaultLonger)))
	return l
}

// NewSampler returns a sampler of a plan. The timetable tells which bakes share an oven.
func NewSampler(p *plan.Plan, t *plan.Timetable) *Sampler {
	s := &Sampler{certain: make([]int64, len(p.Steps)), groups: 1 + len(p.Kitchen.Ovens)}
	tables := map[time.Duration][]float64{} // by shape: many steps have the same
	for i := range p.Steps {
		step := &p.Steps[i]
		s.certain[i] = int64(step.Length.Planned())
		if step.Length.Elastic || step.Length.Likely <= 0 {
			continue
		}
		if step.Length.Longest > step.Length.Shortest {
			s.Ranges++
		} else {
			s.Defaults++
		}
		l := Spread(step.Length)
		x := drawn{step: i, least: float64(l.Shortest), width: float64(l.Longest - l.Shortest), group: -1, rest: 1}
		shape := time.Duration(math.Round(float64(l.Likely-l.Shortest) / x.width * unit))
		if x.table = tables[shape]; x.table == nil {
			x.table = table(shape)
			tables[shape] = x.table
		}
		switch {
		case step.Oven != nil && t.Slots[i].Oven >= 0:
			x.group, x.load, x.rest = 1+t.Slots[i].Oven, math.Sqrt(OvenCommon), math.Sqrt(1-OvenCommon)
		case step.Hands.Working():
			x.group, x.load, x.rest = 0, math.Sqrt(PaceCommon), math.Sqrt(1-PaceCommon)
		}
		s.steps = append(s.steps, x)
	}
	return s
}

// unit is the width of a distribution whose table is made.
const unit = 1e9

// table returns the lengths at the normal scores of the grid, of a step that takes from
// nothing to unit, and so much most likely, as parts of unit.
func table(likely time.Duration) []float64 {
	p := make([]float64, cells+1)
	for k := range p {
		p[k] = normalBelow(-span + 2*span*float64(k)/cells)
	}
	out := make([]float64, len(p))
	for k, d := range (plan.Length{Likely: likely, Longest: unit}).Percentiles(p) {
		out[k] = float64(d) / unit
	}
	return out
}

// normalBelow is the standard normal distribution function.
func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// Source draws for one goroutine.
type Source struct {
	s      *Sampler
	pcg    *rand.PCG
	rand   *rand.Rand
	groups []float64
}

// Source returns a place to draw in.
func (s *Sampler) Source() *Source {
	pcg := rand.NewPCG(0, 0)
	return &Source{s: s, pcg: pcg, rand: rand.New(pcg), groups: make([]float64, s.groups)}
}

// Draw puts into took how long each step takes in one run, in nanoseconds but whole
// seconds; of a wait the least. Without an allocation.
func (d *Source) Draw(seed uint64, run int, took []int64) {
	d.pcg.Seed(mix(seed), mix(mix(seed)+uint64(run)))
	for g := range d.groups {
		d.groups[g] = d.rand.NormFloat64()
	}
	copy(took, d.s.certain)
	for k := range d.s.steps {
		x := &d.s.steps[k]
		z := d.rand.NormFloat64() * x.rest
		if x.group >= 0 {
			z += d.groups[x.group] * x.load
		}
		at := min(max((z+span)*cells/(2*span), 0), cells)
		cell := min(int(at), cells-1)
		lo, hi := x.table[cell], x.table[cell+1]
		took[x.step] = int64(math.Round((x.least+x.width*(lo+(hi-lo)*(at-float64(cell))))/float64(time.Second))) * int64(time.Second)
	}
}

// mix spreads the bits of a seed, so that neighbours have nothing in common:
// splitmix64, Steele, Lea and Flood, Fast splittable pseudorandom number generators,
// 2014 (from memory).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}
