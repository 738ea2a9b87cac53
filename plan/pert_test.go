package plan

import (
	"fmt"
	"testing"
	"time"
)

func uncertain(a, m, b int) Length {
	return Length{Shortest: time.Duration(a) * time.Minute, Likely: time.Duration(m) * time.Minute, Longest: time.Duration(b) * time.Minute}
}

// The percentiles of four tasks, in minutes. Source: quantiles of the beta
// distribution worked out apart from this program, with the shapes that
// beta-PERT gives (2.25 and 3.75, 2 and 4, 3 and 3, 1 and 5).
func TestPercentile(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		l                  Length
		p10, p50, p80, p90 string
	}{
		{uncertain(10, 15, 26), "12.279", "15.765", "18.615", "20.076"},
		{uncertain(20, 30, 60), "24.489", "32.552", "39.608", "43.356"},
		{uncertain(30, 40, 50), "34.933", "40.000", "43.468", "45.067"},
		{uncertain(5, 5, 9), "5.083", "5.518", "6.101", "6.476"},
	} {
		t.Run(fmt.Sprintf("%v-%v-%v", tt.l.Shortest, tt.l.Likely, tt.l.Longest), func(t *testing.T) {
			t.Parallel()
			for _, q := range []struct {
				p    float64
				want string
			}{{0.10, tt.p10}, {0.50, tt.p50}, {0.80, tt.p80}, {0.90, tt.p90}} {
				if got := fmt.Sprintf("%.3f", tt.l.Percentile(q.p).Minutes()); got != q.want {
					t.Errorf("percentile %v is %s min, want %s", q.p, got, q.want)
				}
			}
			if got := tt.l.Percentile(0); got != tt.l.Shortest {
				t.Errorf("percentile 0 is %v, want the shortest, %v", got, tt.l.Shortest)
			}
			if got := tt.l.Percentile(1); got != tt.l.Longest {
				t.Errorf("percentile 1 is %v, want the longest, %v", got, tt.l.Longest)
			}
		})
	}
}

// A certain and an elastic length have nothing to be cautious about.
func TestPercentileOfNoSpread(t *testing.T) {
	t.Parallel()
	for name, l := range map[string]Length{
		"certain": uncertain(8, 8, 8),
		"elastic": {Elastic: true, Shortest: time.Hour, Likely: time.Hour, Longest: Forever},
	} {
		if got := l.Percentile(CautiousAt); got != l.Likely {
			t.Errorf("%s: %v, want %v", name, got, l.Likely)
		}
	}
}

func TestCautious(t *testing.T) {
	t.Parallel()
	p := &Plan{Title: "Pie", Steps: []Step{{Length: uncertain(20, 30, 60)}, {Length: uncertain(8, 8, 8)}, {Length: uncertain(10, 20, 20)}}}
	c := p.Cautious()
	for i, want := range []int{40, 8, 20} {
		if got := Minutes(c.Steps[i].Length.Planned()); got != want {
			t.Errorf("step %d is planned with %d min, want %d", i, got, want)
		}
	}
	if got := p.Steps[0].Length.Likely; got != 30*time.Minute {
		t.Errorf("the plan itself changed: likely is %v", got)
	}
	if c.Title != "Pie" || c.Steps[0].Length.Longest != time.Hour {
		t.Errorf("the copy lost something: %+v", c)
	}
}

// With slack a step is planned longer, and what it made keeps as much less; a wait is as
// it was, and so is the plan.
func TestSlack(t *testing.T) {
	t.Parallel()
	p := &Plan{Steps: []Step{
		{Length: uncertain(10, 15, 26), Keeps: Keep{Kind: Liking, For: 5 * time.Minute, AtMost: 20 * time.Minute}},
		{Length: Length{Elastic: true, Shortest: time.Hour, Likely: time.Hour, Longest: 2 * time.Hour}, Keeps: Keep{Kind: Limit, For: time.Hour, AtMost: time.Hour}},
		{Length: uncertain(8, 8, 8), After: []Link{{Step: 0, Min: 5 * time.Minute, Max: 10 * time.Minute, HasMax: true}, {Step: 1, Max: time.Hour, HasMax: true}}},
	}}
	q := p.Slack([]time.Duration{7 * time.Minute, time.Hour, 3 * time.Minute})
	if s := q.Steps[0]; s.Length != uncertain(10, 22, 26) || s.Keeps.For != 0 || s.Keeps.AtMost != 13*time.Minute {
		t.Errorf("%+v, keeps %+v", s.Length, s.Keeps)
	}
	if s := q.Steps[1]; s.Length != p.Steps[1].Length || s.Keeps != p.Steps[1].Keeps {
		t.Errorf("the wait: %+v", s)
	}
	if l := q.Steps[2].Length; l != uncertain(8, 11, 11) {
		t.Errorf("a certain length: %+v", l)
	}
	if a := q.Steps[2].After; a[0].Max != 5*time.Minute || a[1].Max != time.Hour {
		t.Errorf("the greatest gaps: %+v", a)
	}
	if p.Steps[0].Length != uncertain(10, 15, 26) || p.Steps[2].After[0].Max != 10*time.Minute {
		t.Error("the plan itself changed")
	}
}
