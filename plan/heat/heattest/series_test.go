package heattest_test

import (
	"fmt"
	"math"
	"testing"

	"example.org/kettledrum/plan/heat/heattest"
)

// First eigenvalue and coefficient. Source: Çengel, Heat Transfer, Table 4-2, and
// computed with SciPy where that rounds a tie the other way (slab at 5, cylinder at 2)
// or ends (above 10, from its rows for 20 to infinity).
func TestFirstTerm(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		biot float64
		want [6]float64 // slab ζ, C; cylinder ζ, C; sphere ζ, C
	}{
		{0.01, [6]float64{0.0998, 1.0017, 0.1412, 1.0025, 0.1730, 1.0030}},
		{0.02, [6]float64{0.1410, 1.0033, 0.1995, 1.0050, 0.2445, 1.0060}},
		{0.05, [6]float64{0.2218, 1.0082, 0.3143, 1.0124, 0.3854, 1.0150}},
		{0.1, [6]float64{0.3111, 1.0161, 0.4417, 1.0246, 0.5423, 1.0298}},
		{0.2, [6]float64{0.4328, 1.0311, 0.6170, 1.0483, 0.7593, 1.0592}},
		{0.3, [6]float64{0.5218, 1.0450, 0.7465, 1.0712, 0.9208, 1.0880}},
		{0.5, [6]float64{0.6533, 1.0701, 0.9408, 1.1143, 1.1656, 1.1441}},
		{0.7, [6]float64{0.7506, 1.0918, 1.0873, 1.1539, 1.3525, 1.1978}},
		{1, [6]float64{0.8603, 1.1191, 1.2558, 1.2071, 1.5708, 1.2732}},
		{1.5, [6]float64{0.9882, 1.1537, 1.4569, 1.2807, 1.8366, 1.3850}},
		{2, [6]float64{1.0769, 1.1785, 1.5994, 1.3384, 2.0288, 1.4793}},
		{3, [6]float64{1.1925, 1.2102, 1.7887, 1.4191, 2.2889, 1.6227}},
		{4, [6]float64{1.2646, 1.2287, 1.9081, 1.4698, 2.4556, 1.7202}},
		{5, [6]float64{1.3138, 1.2402, 1.9898, 1.5029, 2.5704, 1.7870}},
		{7, [6]float64{1.3766, 1.2532, 2.0937, 1.5411, 2.7165, 1.8673}},
		{10, [6]float64{1.4289, 1.2620, 2.1795, 1.5677, 2.8363, 1.9249}},
		{20, [6]float64{1.4961, 1.2699, 2.2880, 1.5919, 2.9857, 1.9781}},
		{50, [6]float64{1.5400, 1.2727, 2.3572, 1.6002, 3.0788, 1.9962}},
		{100, [6]float64{1.5552, 1.2731, 2.3809, 1.6015, 3.1102, 1.9990}},
	} {
		t.Run(fmt.Sprint(c.biot), func(t *testing.T) {
			t.Parallel()
			for _, shape := range []heattest.Shape{heattest.Slab, heattest.Cylinder, heattest.Sphere} {
				s := heattest.NewSeries(shape, 1, heattest.Meat{Diffusivity: 1, Conductivity: 1}, c.biot, 1, 0, 1)
				digits(t, fmt.Sprintf("ζ of shape %d", shape), s.Zeta[0], c.want[2*shape], 4)
				digits(t, fmt.Sprintf("C of shape %d", shape), s.C[0], c.want[2*shape+1], 4)
			}
		})
	}
}

// Textbook eggs. Source: Çengel, Heat Transfer, chapter 4 (the first is printed as about
// 17.8 minutes); the figures are computed with SciPy from their inputs.
func TestEggs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name                                       string
		conductivity, alpha, h, from, water, until float64
		oneTerm, full                              float64 // seconds
	}{
		{"8-to-70", 0.6, 0.14e-6, 1400, 8, 97, 70, 1064.5, 1062.5},
		{"4-to-74", 0.607, 0.146e-6, 800, 4.3, 100, 74, 1105.9, 1104.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			meat := heattest.Meat{Diffusivity: c.alpha, Conductivity: c.conductivity}
			of := func(terms int) float64 {
				return heattest.NewSeries(heattest.Sphere, 0.0275, meat, c.h, c.from, c.water, terms).Until(c.until)
			}
			digits(t, "one term", of(1), c.oneTerm, 1)
			digits(t, "full", of(60), c.full, 1)
		})
	}
}

// dry is a roast without evaporation, from 5 °C.
type dry struct {
	shape           heattest.Shape
	length, h, oven float64
}

var (
	beef = heattest.Meat{Diffusivity: 1.30e-7, Conductivity: 0.45}
	dryA = dry{heattest.Sphere, 0.06, 20, 160}
	dryB = dry{heattest.Cylinder, 0.05, 20, 160}
	dryC = dry{heattest.Slab, 0.02, 30, 200}
)

func (d dry) series(terms int) heattest.Series {
	return heattest.NewSeries(d.shape, d.length, beef, d.h, 5, d.oven, terms)
}

// Computed with SciPy: series of 60 terms.
func TestDryRoasts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name                    string
		dry                     dry
		zeta, coeff, rate, lag  float64 // per minute, minutes
		lagDigits               int
		minutes, full, one      []float64
		targets, untils, unOnes []float64
	}{
		{
			"A", dryA, 2.2157, 1.5809, 0.010637, 43.05, 2,
			[]float64{20, 30, 40, 60, 80, 90, 100, 120},
			[]float64{5.5000, 8.8781, 15.9288, 36.0174, 57.1947, 66.9823, 76.0296, 91.8318},
			[]float64{math.NaN(), math.NaN(), math.NaN(), 30.5654, 55.3693, 65.9273, 75.4200, 91.6283},
			[]float64{50, 54, 57, 60, 63, 74},
			[]float64{73.0381, 76.8757, 79.8079, 82.7946, 85.8436, 97.6810},
			[]float64{75.2953, 78.7777, 81.4768, 84.2556, 87.1192, 98.4348},
		},
		{
			"B", dryB, 1.6504, 1.3598, 0.008498, 36.17, 2,
			[]float64{20, 30, 40, 60, 80, 90, 100, 120},
			[]float64{6.0988, 10.5019, 17.7743, 35.8522, 53.9584, 62.3246, 70.1302, 84.0523}, nil,
			[]float64{50, 54, 57, 60, 63},
			[]float64{75.4742, 80.0482, 83.5612, 87.1547, 90.8373},
			[]float64{76.5222, 80.8809, 84.2593, 87.7376, 91.3218},
		},
		{
			"C", dryC, 0.9512, 1.1434, 0.017642, 7.60, 2,
			[]float64{20, 30}, []float64{43.6199, 68.6873}, nil,
			[]float64{50, 54, 57, 60, 63}, []float64{22.4061, 23.9567, 25.1441, 26.3541, 27.5883}, nil,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			full, one := c.dry.series(60), c.dry.series(1)
			rate := one.Zeta[0] * one.Zeta[0] * one.Rate * 60
			digits(t, "ζ", one.Zeta[0], c.zeta, 4)
			digits(t, "C", one.C[0], c.coeff, 4)
			digits(t, "rate", rate, c.rate, 6)
			digits(t, "lag", math.Log(one.C[0])/rate, c.lag, c.lagDigits)
			for i, m := range c.minutes {
				digits(t, fmt.Sprintf("core at %v min", m), full.Core(m*60), c.full[i], 4)
				if c.one != nil && !math.IsNaN(c.one[i]) {
					digits(t, fmt.Sprintf("one term at %v min", m), one.Core(m*60), c.one[i], 4)
				}
			}
			for i, target := range c.targets {
				digits(t, fmt.Sprintf("minutes to %v °C", target), full.Until(target)/60, c.untils[i], 4)
				if c.unOnes != nil {
					digits(t, fmt.Sprintf("minutes to %v °C by one term", target), one.Until(target)/60, c.unOnes[i], 4)
				}
			}
		})
	}
	one := dryA.series(1)
	for m, want := range map[float64]float64{20: -38.1, 30: -18.1} {
		digits(t, "one term is far off early", one.Core(m*60), want, 1)
	}
	digits(t, "one term is far off early", one.Core(40*60), -0.12, 2)
}

// A finite cylinder is the product of a long one and a slab: radius 5 cm, 20 cm long.
// Computed with SciPy.
func TestFiniteCylinder(t *testing.T) {
	t.Parallel()
	round := dryB.series(60)
	ends := heattest.NewSeries(heattest.Slab, 0.10, beef, 20, 5, 160, 60)
	core := func(minutes float64) float64 {
		theta := (160 - round.Core(minutes*60)) / 155 * (160 - ends.Core(minutes*60)) / 155
		return 160 - 155*theta
	}
	for _, c := range []struct{ minutes, want float64 }{{30, 10.5021}, {60, 35.9241}, {90, 62.8376}} {
		digits(t, fmt.Sprintf("core at %v min", c.minutes), core(c.minutes), c.want, 4)
	}
	for _, c := range []struct{ minutes, want float64 }{{83.1198, 57}, {90.1956, 63}} {
		digits(t, fmt.Sprintf("core at %v min", c.minutes), core(c.minutes), c.want, 4)
	}
}

// A rib roast of 5 lb on the bone takes 23 to 25 minutes a pound at 325 °F to 145 °F
// (FoodSafety.gov, Meat and Poultry Roasting Charts, 2023). A ball of its volume takes
// longer, but not by half as much again.
func TestRibRoastInTheRightOrder(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ h, want float64 }{{25, 130}, {15, 151}} {
		s := heattest.NewSeries(heattest.Sphere, 0.08, beef, c.h, 4, 162.78, 60)
		got := s.Until(62.78) / 60
		near(t, fmt.Sprintf("minutes, h %v", c.h), got, c.want, 2)
		if got < 115 || got > 125*1.5 {
			t.Errorf("h %v: %.0f min, the chart says 115 to 125", c.h, got)
		}
	}
}

// digits compares to so many printed digits after the point.
func digits(t *testing.T, what string, got, want float64, n int) {
	t.Helper()
	if math.Abs(got-want) > 0.5000001*math.Pow10(-n) {
		t.Errorf("%s: got %.*f, want %.*f", what, n+2, got, n, want)
	}
}
