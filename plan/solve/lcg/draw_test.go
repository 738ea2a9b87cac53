package lcg

import "math/rand/v2"

// kind is a kind of rule that a tiny model may have.
type kind int

const (
	arcs kind = 1 << iota
	conditions
	clauses
	linears
	cumulatives
	options // tasks that may be absent
	groups
	allKinds = 1<<iota - 1
)

// drawer makes tiny models at random.
type drawer struct {
	*rand.Rand
	m        *tiny
	kinds    kind
	numbers  []Var // with up to six values
	booleans []Var
	planted  []int32 // a solution to be, nil for none
}

func draw(rng *rand.Rand, kinds kind) *tiny {
	d := &drawer{Rand: rng, m: &tiny{}, kinds: kinds}
	most := 300
	switch rng.IntN(20) {
	case 0:
		most = 6000
	case 1, 2, 3, 4, 5:
		most = 1500
	}
	size := 1
	variable := func(low, values int32) Var {
		size *= int(values)
		d.m.low, d.m.high = append(d.m.low, low), append(d.m.high, low+values-1)
		return Var(2 * (len(d.m.low) - 1))
	}
	for range d.IntN(4) {
		d.booleans = append(d.booleans, variable(0, 2))
	}
	for range 2 + d.IntN(5) {
		if values := 2 + d.Int32N(5); size*int(values) <= most || len(d.numbers) < 2 {
			d.numbers = append(d.numbers, variable(d.Int32N(6)-3, values))
		}
	}
	if d.oneIn(4) {
		d.numbers = append(d.numbers, variable(d.Int32N(3)-1, 1)) // a constant, for views of it
	}
	var may []func() rule
	for _, k := range []struct {
		kind kind
		draw func() rule
	}{{arcs, d.arc}, {clauses, d.clause}, {linears, d.linear}, {cumulatives, d.cumulative}} {
		if kinds&k.kind != 0 {
			may = append(may, k.draw)
		}
	}
	// Most models have a solution, so that there are explanations that could go
	// wrong about one; and rules that it just meets, so that there is something to
	// explain.
	if !d.oneIn(5) {
		for k := range d.m.low {
			d.planted = append(d.planted, d.m.low[k]+d.Int32N(d.m.high[k]-d.m.low[k]+1))
		}
	}
	rules := 1 + d.IntN(14)
	if kinds&^(cumulatives|options|groups) == 0 {
		rules = 1 + d.IntN(4)
	}
	for tries := 0; len(d.m.rules) < rules && (tries < 100 || len(d.m.rules) == 0); tries++ {
		if r := may[d.IntN(len(may))](); d.planted == nil || r.holds(d.planted) {
			d.m.rules = append(d.m.rules, r)
		}
	}
	return d.m
}

func (d *drawer) oneIn(n int) bool { return d.IntN(n) == 0 }

// anyVar is a variable or, now and then, its twin.
func (d *drawer) anyVar() Var {
	v := d.numbers[d.IntN(len(d.numbers))]
	if d.oneIn(6) {
		v++
	}
	return v
}

func (d *drawer) view() View { return View{d.anyVar(), d.Int32N(5) - 2} }

// literal is of a boolean as often as not, and cuts a domain in two but rarely.
func (d *drawer) literal() Lit {
	v := d.anyVar()
	if len(d.booleans) > 0 && d.oneIn(2) {
		v = d.booleans[d.IntN(len(d.booleans))]
	}
	low, high := d.m.low[v/2], d.m.high[v/2]
	b := low + d.Int32N(high-low+1) + 1
	if d.oneIn(20) {
		b = low + d.Int32N(high-low+4) - 1
	}
	if b > high && !d.oneIn(10) {
		b = high
	}
	if d.oneIn(2) {
		return Lit{v | 1, 1 - b}
	}
	return Lit{v &^ 1, b}
}

func (d *drawer) condition() Lit {
	switch {
	case d.kinds&conditions == 0 || d.oneIn(3):
		return True
	case d.oneIn(30):
		return True.Not()
	}
	return d.literalThatIs(!d.oneIn(4))
}

// literalThatIs draws a literal that is true in the solution to be, or is not.
func (d *drawer) literalThatIs(truth bool) Lit {
	l := d.literal()
	if d.planted != nil && isTrue(l, d.planted) != truth {
		return l.Not()
	}
	return l
}

// little is 0 to 2, most often 0.
func (d *drawer) little() int32 { return d.Int32N(3) * d.Int32N(2) }

func (d *drawer) arc() rule {
	r := arcRule{d.view(), d.view(), d.Int32N(9) - 5, d.condition()}
	if d.planted != nil && isTrue(r.cond, d.planted) {
		r.w = valueOf(r.to, d.planted) - valueOf(r.from, d.planted) - d.little()
	} else if d.planted != nil {
		r.w += 3
	}
	return r
}

func (d *drawer) clause() rule {
	var r clauseRule
	for k := range 2 + d.IntN(4) - d.IntN(2) {
		r = append(r, d.literalThatIs(k == 0))
	}
	d.Shuffle(len(r), func(i, j int) { r[i], r[j] = r[j], r[i] })
	if d.oneIn(30) {
		r = append(r, True.Not())
	}
	return r
}

func (d *drawer) linear() rule {
	r := linearRule{cond: d.condition()}
	low, high, sum := int64(0), int64(0), int64(0)
	for range 1 + d.IntN(4) {
		t := Term{1 + d.Int32N(3), d.anyVar()}
		if len(d.booleans) > 0 && d.oneIn(4) {
			t.V = d.booleans[d.IntN(len(d.booleans))]
		}
		r.terms = append(r.terms, t)
		a, b := d.m.low[t.V/2], d.m.high[t.V/2]
		if t.V%2 == 1 {
			a, b = -b, -a
		}
		low, high = low+int64(t.Factor*a), high+int64(t.Factor*b)
		if d.planted != nil {
			sum += int64(t.Factor * valueOf(View{V: t.V}, d.planted))
		}
	}
	r.most = low - 1 + d.Int64N(high-low+2)
	if d.planted != nil && isTrue(r.cond, d.planted) {
		r.most = sum + int64(d.little())
	}
	return r
}

func (d *drawer) cumulative() rule {
	r := cumulativeRule{capacity: 1 + d.Int32N(3)}
	grouped := d.kinds&groups != 0 && (d.kinds&^groups == cumulatives|options || d.oneIn(3))
	for range 2 + d.IntN(4) {
		t := Task{From: d.view(), Amount: min(1+d.Int32N(2), r.capacity), Present: True}
		if d.oneIn(20) {
			t.Amount = d.Int32N(5)
		}
		if d.kinds&options != 0 && d.oneIn(3) {
			t.Present = d.literalThatIs(!d.oneIn(4))
		}
		length := 1 + d.Int32N(3)
		if d.oneIn(6) {
			length = 0
		}
		switch {
		case grouped && !d.oneIn(5): // as the rule for groups wants it: a unit long, the same amount
			t.Group = 1 + d.Int32N(3)/2
			t.To = View{t.From.V, t.From.Plus + 1}
			t.Least, t.Amount = 1, t.Group
		case d.oneIn(3): // of variable length
			t.To, t.Least = d.view(), d.Int32N(3)
			if d.planted != nil {
				if valueOf(t.To, d.planted) < valueOf(t.From, d.planted) {
					t.From, t.To = t.To, t.From
				}
				t.Least = min(t.Least, valueOf(t.To, d.planted)-valueOf(t.From, d.planted))
			}
		default:
			t.To = View{t.From.V, t.From.Plus + length}
			t.Least = length
			if length > 0 && d.oneIn(8) {
				t.Least--
			}
		}
		r.tasks = append(r.tasks, t)
	}
	if d.oneIn(3) {
		// Far before the others, so that a boundary between blocks of cells lies among them.
		w := d.view()
		w.Plus -= block - 6
		r.tasks = append(r.tasks, Task{From: w, To: View{w.V, w.Plus + 1}, Least: 1, Amount: 1, Present: True})
	}
	for d.planted != nil && !r.holds(d.planted) {
		if len(r.tasks) > 3 {
			r.tasks = r.tasks[1:]
			continue
		}
		r.capacity++
	}
	return r
}
