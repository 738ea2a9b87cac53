package risk_test

import (
	"testing"

	"example.org/kettledrum/plan/risk"
)

// BenchmarkSimulate is ten thousand evenings of a dinner, with all that the report tells.
func BenchmarkSimulate(b *testing.B) {
	for _, name := range []string{"weeknight", "harvest", "banquet"} {
		b.Run(name, func(b *testing.B) {
			p, t := example(b, name)
			b.ReportAllocs()
			for b.Loop() {
				risk.New(p, t).Simulate(b.Context(), risk.Options{Runs: 10_000, Seed: 1, Thin: true, Starts: true})
			}
		})
	}
}

// BenchmarkEvening is one.
func BenchmarkEvening(b *testing.B) {
	p, t := example(b, "harvest")
	d := risk.New(p, t)
	e, source, took := d.Dispatcher.Evening(), d.Sampler.Source(), make([]int64, len(p.Steps))
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		source.Draw(1, n, took)
		e.Run(took)
		n++
	}
}
