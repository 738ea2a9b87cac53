package network_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.org/kettledrum/plan/network"
)

// dinner draws a network like that of a timetable: starts and ends in chains,
// lengths between, and for one in three a greatest distance back.
func dinner(points int) *network.Network {
	r := rand.New(rand.NewPCG(1, 2))
	n := network.New(points)
	for i := 1; i < points; i++ {
		w := int64(1 + r.IntN(30))
		from := max(0, i-1-r.IntN(5))
		n.AddArc(from, i, w, 0)
		if r.IntN(3) == 0 {
			n.AddArc(i, from, -w-200, 0)
		}
	}
	return n
}

func BenchmarkEarliest(b *testing.B) {
	for _, points := range []int{100, 1000} {
		b.Run(fmt.Sprint(points), func(b *testing.B) {
			n := dinner(points)
			b.ReportAllocs()
			for b.Loop() {
				if _, err := n.Earliest(nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkRaise(b *testing.B) {
	for _, points := range []int{100, 1000} {
		b.Run(fmt.Sprint(points), func(b *testing.B) {
			n := dinner(points)
			x, err := n.Earliest(nil)
			if err != nil {
				b.Fatal(err)
			}
			b.ReportAllocs()
			for b.Loop() {
				at := points / 2
				if _, err := n.Raise(x, at, x[at]+1); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
