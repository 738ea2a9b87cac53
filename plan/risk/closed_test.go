package risk_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/plantest"
	"example.org/kettledrum/plan/risk"
)

// Simulated dinners against what can be worked out on paper. Every bound is four
// standard errors, for the seed is fixed: what holds now holds always.

func points(a, m, b float64) plan.Length {
	min := func(x float64) time.Duration { return time.Duration(x * float64(time.Minute)) }
	return plan.Length{Shortest: min(a), Likely: min(m), Longest: min(b)}
}

// task is a step of a project: how long, after which others, baked or by itself.
type task struct {
	length plan.Length
	after  []int
	baked  bool
}

// project makes a dinner of tasks that need nothing but each other. Nothing is
// planned later than the shortest lengths allow, so that no task waits for its time.
func project(t testing.TB, tasks ...task) (*plan.Plan, *plan.Timetable) {
	t.Helper()
	b := plantest.New("2026-10-17 12:00")
	b.Cook("Ines", "00:00-23:59")
	b.Course("Supper", 0, 0, time.Hour)
	b.Dish("Pie", 0)
	table := &plan.Timetable{Status: plan.Whole, Serves: []time.Time{b.Plan.Table}}
	for i, x := range tasks {
		options := []plantest.Option{plantest.Hands(plan.Free)}
		links := []plan.Link{}
		start := b.Plan.Table
		for _, j := range x.after {
			links = append(links, plan.Link{Step: j})
			start = plan.Later(start, table.Slots[j].End)
		}
		options = append(options, plantest.After(links...))
		oven := -1
		if x.baked {
			options = append(options, plantest.Oven(180, 1))
			oven = 0
		}
		b.Step(fmt.Sprintf("Task %d", i), x.length, options...)
		table.Slots = append(table.Slots, plan.Slot{Start: start, End: start.Add(x.length.Shortest), Cook: -1, Oven: oven})
	}
	return &b.Plan, table
}

// simulated returns how long a project takes in each run, in minutes.
func simulated(t testing.TB, runs int, tasks ...task) []float64 {
	t.Helper()
	p, table := project(t, tasks...)
	r := risk.New(p, table).Simulate(t.Context(), risk.Options{Runs: runs, Seed: 3})
	out := make([]float64, r.N)
	for n, late := range r.Late[0] {
		out[n] = float64(late) / 60
	}
	return out
}

func meanAndSD(of []float64) (mean, sd float64) {
	for _, x := range of {
		mean += x / float64(len(of))
	}
	for _, x := range of {
		sd += (x - mean) * (x - mean) / float64(len(of)-1)
	}
	return mean, math.Sqrt(sd)
}

func near(t *testing.T, what string, got, want, se float64) {
	t.Helper()
	if math.Abs(got-want) > 4*se {
		t.Errorf("%s is %.4f, want %.4f ± %.4f", what, got, want, 4*se)
	}
}

const runs = 20_000

// The means, exact standard deviations and percentiles of four tasks, in minutes.
// Source: quantiles of the beta distribution worked out apart from this program, with
// the shapes that beta-PERT gives, as in TestPercentile of package plan; mean (a + 4m +
// b)/6, variance (μ−a)(b−μ)/7.
func TestBetaPERT(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		a, m, b, mean, sd  float64
		p10, p50, p80, p90 float64
	}{
		{10, 15, 26, 16.0000, 2.9277, 12.279, 15.765, 18.615, 20.076},
		{20, 30, 60, 33.3333, 7.1270, 24.489, 32.552, 39.608, 43.356},
		{30, 40, 50, 40.0000, 3.7796, 34.933, 40.000, 43.468, 45.067},
		{5, 5, 9, 5.6667, 0.5634, 5.083, 5.518, 6.101, 6.476},
	} {
		for _, baked := range []bool{false, true} { // with the factor of an oven it is the same
			t.Run(fmt.Sprintf("%v-%v-%v-%v", c.a, c.m, c.b, baked), func(t *testing.T) {
				t.Parallel()
				l := points(c.a, c.m, c.b)
				took := simulated(t, runs, task{length: l, baked: baked})
				mean, sd := meanAndSD(took)
				near(t, "mean", mean, c.mean, c.sd/math.Sqrt(runs))
				near(t, "standard deviation", sd, c.sd, c.sd/math.Sqrt(2*runs))
				slices.Sort(took)
				for _, q := range []struct{ p, want float64 }{{0.1, c.p10}, {0.5, c.p50}, {0.8, c.p80}, {0.9, c.p90}} {
					const h = 0.005
					around := l.Percentiles([]float64{q.p - h, q.p + h})
					density := 2 * h / (around[1] - around[0]).Minutes()
					near(t, fmt.Sprintf("percentile %v", q.p), took[int(q.p*runs)], q.want, math.Sqrt(q.p*(1-q.p)/runs)/density)
				}
			})
		}
	}
}

// In a chain means add, and so do the variances of what has nothing in common.
func TestChain(t *testing.T) {
	t.Parallel()
	took := simulated(t, runs, task{length: points(10, 15, 26)}, task{length: points(20, 30, 60), after: []int{0}})
	mean, sd := meanAndSD(took)
	near(t, "mean", mean, 49.3333, 7.7049/math.Sqrt(runs))
	near(t, "standard deviation", sd, 7.7049, 7.7049/math.Sqrt(2*runs))
}

// Of two equal branches the later has the distribution F².
func TestParallelBranches(t *testing.T) {
	t.Parallel()
	l := points(20, 30, 60)
	took := simulated(t, runs, task{length: l}, task{length: l})
	for _, p := range []float64{0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95} {
		by := l.Percentile(p).Minutes()
		below := 0
		for _, x := range took {
			if x <= by {
				below++
			}
		}
		want := p * p
		near(t, fmt.Sprintf("chance of both by percentile %v", p), float64(below)/runs, want, math.Sqrt(want*(1-want)/runs))
	}
}

// Two bakes in one oven are both shorter than their medians in ¼ + arcsin ρ / 2π of
// the evenings: Sheppard, On the application of the theory of error, 1899 (from memory).
func TestCommonOven(t *testing.T) {
	t.Parallel()
	p, table := project(t, task{length: points(20, 30, 60), baked: true}, task{length: points(10, 15, 26), baked: true})
	source, took := risk.NewSampler(p, table).Source(), make([]int64, 2)
	both := 0
	for n := range runs {
		source.Draw(5, n, took)
		if took[0] < int64(p.Steps[0].Length.Percentile(0.5)) && took[1] < int64(p.Steps[1].Length.Percentile(0.5)) {
			both++
		}
	}
	want := 0.25 + math.Asin(risk.OvenCommon)/(2*math.Pi)
	near(t, "both short", float64(both)/runs, want, math.Sqrt(want*(1-want)/runs))
}

// The mean and variance of the maximum of two normal variables. Source: Clark, The
// greatest of a finite set of random variables, Operations Research 9 (1961), 145–162,
// formulas for n = 2 (from memory):
//
//	a² = σ₁² + σ₂² − 2ρσ₁σ₂, α = (μ₁ − μ₂)/a
//	E max  = μ₁Φ(α) + μ₂Φ(−α) + aφ(α)
//	E max² = (μ₁² + σ₁²)Φ(α) + (μ₂² + σ₂²)Φ(−α) + (μ₁ + μ₂)aφ(α)
func TestClark(t *testing.T) {
	t.Parallel()
	below := func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
	density := func(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
	for _, c := range []struct{ m1, s1, m2, s2, rho float64 }{
		{60, 5, 60, 5, 0}, {60, 8, 55, 4, 0}, {60, 8, 55, 12, 0.5}, {90, 3, 60, 3, -0.3},
	} {
		t.Run(fmt.Sprintf("%v-%v-%v-%v-%v", c.m1, c.s1, c.m2, c.s2, c.rho), func(t *testing.T) {
			t.Parallel()
			p, table := project(t, task{length: points(0, 0, 0)}, task{length: points(0, 0, 0)})
			e := risk.Compile(p, table).Evening()
			r := rand.New(rand.NewPCG(11, 1))
			out := make([]float64, runs)
			for n := range out {
				z1 := r.NormFloat64()
				z2 := c.rho*z1 + math.Sqrt(1-c.rho*c.rho)*r.NormFloat64()
				e.Run([]int64{int64((c.m1 + c.s1*z1) * 60e9), int64((c.m2 + c.s2*z2) * 60e9)})
				out[n] = time.Duration(e.Serve(0)).Minutes()
			}
			a := math.Sqrt(c.s1*c.s1 + c.s2*c.s2 - 2*c.rho*c.s1*c.s2)
			alpha := (c.m1 - c.m2) / a
			first := c.m1*below(alpha) + c.m2*below(-alpha) + a*density(alpha)
			second := (c.m1*c.m1+c.s1*c.s1)*below(alpha) + (c.m2*c.m2+c.s2*c.s2)*below(-alpha) + (c.m1+c.m2)*a*density(alpha)
			want := math.Sqrt(second - first*first)
			mean, sd := meanAndSD(out)
			near(t, "mean", mean, first, want/math.Sqrt(runs))
			near(t, "standard deviation", sd, want, want/math.Sqrt(2*runs))
		})
	}
}

// A project of fourteen activities with three times each, in days, worked out in print.
// Source: "Time (days), immediate predecessor(s)", wizedu.com/questions/717873, which
// tells means to two places, and when A to F begin and end at the earliest: the first
// are copied from there, the project's mean and variance are the sums along A C E H I K M N.
func TestPublishedProject(t *testing.T) {
	t.Parallel()
	activities := []struct {
		name    string
		a, m, b float64
		after   string
		mean    float64
	}{
		{"A", 5, 5, 7, "", 5.33}, {"B", 1, 2, 5, "", 2.33}, {"C", 5, 5, 5, "A", 5.00}, {"D", 4, 8, 13, "A", 8.17},
		{"E", 1, 10, 17, "BC", 9.67}, {"F", 1, 5, 7, "D", 4.67}, {"G", 2, 6, 9, "D", 5.83}, {"H", 4, 4, 6, "EF", 4.33},
		{"I", 2, 7, 10, "GH", 6.67}, {"J", 2, 4, 7, "I", 4.17}, {"K", 6, 10, 13, "I", 9.83}, {"L", 2, 6, 6, "J", 5.33},
		{"M", 2, 2, 3, "K", 2.17}, {"N", 7, 7, 12, "LM", 7.83},
	}
	var tasks []task
	took := []int64{}
	for _, x := range activities {
		k := task{length: points(x.a, x.m, x.b)}
		for _, name := range x.after {
			k.after = append(k.after, int(name-'A'))
		}
		tasks = append(tasks, k)
		mean := (x.a + 4*x.m + x.b) / 6
		near(t, "mean of "+x.name, mean, x.mean, 0.005/4)
		took = append(took, int64(mean*60e9))
	}
	p, table := project(t, tasks...)
	e := risk.Compile(p, table).Evening()
	e.Run(took) // each as long as its mean: the pass of the textbook
	for i, want := range [][2]float64{{0, 5.33}, {0, 2.33}, {5.33, 10.33}, {5.33, 13.50}, {10.33, 20.00}, {13.50, 18.17}} {
		near(t, activities[i].name+" begins", time.Duration(e.Start(i)).Minutes(), want[0], 0.005/4)
		near(t, activities[i].name+" ends", time.Duration(e.End(i)).Minutes(), want[1], 0.005/4)
	}
	near(t, "the project", time.Duration(e.Serve(0)).Minutes(), 50.83, 0.005/4)
	path := ""
	e.Critical(0, func(i int) { path = activities[i].name + path })
	if path != "ACEHIKMN" {
		t.Errorf("critical path %s, want ACEHIKMN", path)
	}
	// The path alone has that mean, but for C, which is certain in print and has the
	// default spread here; beside the others it is later, never sooner.
	alone := simulated(t, runs, chainOf(tasks, path)...)
	mean, sd := meanAndSD(alone)
	near(t, "mean of the path", mean, 50.83+5*(risk.DefaultLonger-risk.DefaultShorter)/6, sd/math.Sqrt(runs)+0.005/4)
	all, _ := meanAndSD(simulated(t, runs, tasks...))
	if all < mean {
		t.Errorf("the project takes %.3f on average, its longest path alone %.3f", all, mean)
	}
}

func chainOf(tasks []task, path string) (out []task) {
	for k, name := range path {
		x := task{length: tasks[name-'A'].length}
		if k > 0 {
			x.after = []int{k - 1}
		}
		out = append(out, x)
	}
	return out
}
