package ingredient

import (
	"strings"

	"example.org/kettledrum/plan/measure"
)

// lead reads the amount that begins at i: number, unit or pack, the size of one,
// and the same said again. It fills l and returns the token after it.
func (p *parser) lead(i int, l *Line) (next int, ok bool) {
	if next, ok := p.unnumbered(i, l); ok {
		return next, true
	}
	q, j, ok := p.quantity(i)
	if !ok || p.stuck(j) {
		return i, false
	}
	a := Amount{Lo: q.lo, Hi: q.hi, About: q.about}
	texts := []string{p.slice(i, j)}
	take := func(from, to int) {
		if from < to {
			texts = append(texts, p.slice(from, to))
		}
		j = to
	}

	switch {
	case p.one(j, "x", "×", "*") && p.kind(j+1, number):
		each, n, ok := p.measured(j + 1)
		if !ok {
			return i, false
		}
		take(j, j+1)
		l.Each, j = each, n
	case p.one(j, "x", "×"):
		take(j, j+1)
	case p.is(j, "("):
		if inside, n, ok := p.brackets(j); ok && inside[0].Unit != nil {
			l.Each, l.Also, j = inside[0], inside[1:], n
		}
	default:
		if each, n, ok := p.measured(j); ok && p.t[j].kind == number && (p.t[j-1].kind != number || p.t[j].gap) {
			l.Each, j = each, n
		}
	}

	if q.hi < 1 && p.one(j, "a", "an") && p.kind(j+1, word) { // "½ a cabbage"
		take(j, j+1)
	}
	if p.is(j, "of") && p.one(j+1, "a", "an") { // "three quarters of a cup of"
		if _, _, _, ok := p.unit(j + 2); ok {
			take(j, j+2)
		}
	}
	u, pk, n, ok := p.unit(j)
	for k := j; ok && k < n; k++ {
		a.About = a.About || aboutWords[p.t[k].text]
	}
	switch {
	case ok && u != nil && l.Each.None():
		a.Unit = u
		take(j, n)
		if n, sum := p.more(j, &a); sum {
			take(j, n)
		}
		j = p.again(j, l)
		if _, pk, n, ok := p.unit(j); ok && pk.kind == container && pk.one != "" && sizes(u) {
			// "400 g tin": one tin of that size.
			a.Text = strings.Join(texts, " ")
			l.Each, a, texts = a, Amount{Lo: 1, Hi: 1, Pack: pk.one}, nil
			take(j, n)
		}
	case ok && u == nil:
		a.Pack = pk.one
		take(j, n)
		if inside, n, ok := p.brackets(j); ok && l.Each.None() && len(inside) > 0 {
			l.Each, l.Also, j = inside[0], inside[1:], n
		}
	case !ok && !l.Each.None():
		// "one 3½-pound chicken", "2 x 200 g steaks": the item is what is counted.
	}
	if p.is(j, "each") {
		l.Note = joinNotes(l.Note, p.slice(j, j+1))
		j++
	}
	if p.is(j, "of") && j+1 < len(p.t) {
		n := j + 1
		if p.one(n, "a", "an", "the") && n+1 < len(p.t) {
			n++
		}
		take(j, n)
	}
	a.Text = strings.Join(texts, " ")
	l.Amount = a
	return j, true
}

// stuck tells whether the number before token i is the beginning of a word:
// "5-spice", "12-grain".
func (p *parser) stuck(i int) bool {
	if !p.dash(i) || !p.glued(i) || !p.kind(i+1, word) || !p.glued(i+1) {
		return false
	}
	_, _, _, ok := p.unit(i)
	return !ok
}

// sizes tells a unit in which the size of a pack is given.
func sizes(u *measure.Unit) bool {
	return !u.Vague && !strings.Contains(u.Name, "cup") && !strings.Contains(u.Name, "spoon")
}

// unnumbered reads an amount without a number: "a few sprigs of", "pinch of",
// "some".
func (p *parser) unnumbered(i int, l *Line) (next int, ok bool) {
	j := i
	for _, n := range []int{3, 2, 1} {
		if i+n < len(p.t) && numberless[strings.ToLower(p.slice(i, i+n))] {
			j = i + n
			break
		}
	}
	a := Amount{}
	u, pk, n, unit := p.unit(j)
	switch {
	case j > i && unit:
		a.Unit, a.Pack, j = u, pk.one, n
	case j > i:
	case unit && n < len(p.t) && (p.is(n, "of") || bare[pk.one] || u != nil && u.Vague) && p.kind(n, word):
		a.Unit, a.Pack, a.Lo, a.Hi, j = u, pk.one, 1, 1, n
	default:
		return i, false
	}
	if p.is(j, "of") && j+1 < len(p.t) {
		j++
	}
	a.Text = p.slice(i, j)
	l.Amount = a
	return j, true
}

// bare are the packs that need neither a number nor "of": "bunch parsley".
var bare = set(`handful splash drizzle knob glug squeeze bunch sprig dollop grating`)

func joinNotes(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "":
		return a
	}
	return a + ", " + b
}
