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

// measured reads a number with a unit of measure and nothing more.
func (p *parser) measured(i int) (a Amount, next int, ok bool) {
	q, j, ok := p.quantity(i)
	if !ok {
		return a, i, false
	}
	u, _, n, ok := p.unit(j)
	if !ok || u == nil || u.Vague {
		return a, i, false
	}
	return Amount{Text: p.slice(i, n), Lo: q.lo, Hi: q.hi, About: q.about, Unit: u}, n, true
}

// more reads what goes on with an amount: "1 lb 4 oz", "1 cup plus 2 tbsp", "500 g
// to 1 kg".
func (p *parser) more(i int, a *Amount) (next int, ok bool) {
	next = i
	for {
		k := next
		if p.one(k, "plus", "+", "and", "&") {
			k++
		}
		if b, n, is := p.measured(k); is && b.Unit.Dimension == a.Unit.Dimension && b.Unit.Size < a.Unit.Size && b.Lo == b.Hi {
			add := measure.Convert(b.Lo, b.Unit, a.Unit)
			a.Lo, a.Hi, next = a.Lo+add, a.Hi+add, n
			continue
		}
		break
	}
	if p.dash(next) || p.is(next, "to") {
		if b, n, is := p.measured(next + 1); is && b.Unit.Dimension == a.Unit.Dimension && a.Lo == a.Hi {
			if hi := measure.Convert(b.Hi, b.Unit, a.Unit); hi > a.Lo {
				a.Hi, next = hi, n
			}
		}
	}
	return next, next > i
}

// again reads the same amount in other units: "/ 225 g", "(225 g)", "= 8 oz".
func (p *parser) again(i int, l *Line) (next int) {
	next = i
	for {
		if p.one(next, "/", "=", "or", "|") {
			if b, n, ok := p.measured(next + 1); ok {
				n, _ = p.more(n, &b)
				from := next
				if !p.is(next, "or") {
					from++
				}
				b.Text = p.slice(from, n)
				l.Also, next = append(l.Also, b), n
				continue
			}
		}
		if inside, n, ok := p.brackets(next); ok {
			l.Also, next = append(l.Also, inside...), n
			continue
		}
		return next
	}
}

// brackets reads brackets that hold nothing but amounts: "(14 oz)", "(8 fl oz/240
// ml)", "(about 2 lb)".
func (p *parser) brackets(i int) (inside []Amount, next int, ok bool) {
	end := p.closing(i)
	if end < 0 || strings.ContainsAny(p.slice(i+1, end), "([") { // amounts have none; depth would cost
		return nil, i, false
	}
	inside, ok = amounts(p.slice(i+1, end), p.system)
	return inside, end + 1, ok
}

// closing returns the token that closes the bracket at i; -1 where there is none.
func (p *parser) closing(i int) int {
	if !p.one(i, "(", "[") {
		return -1
	}
	depth := 0
	for k := i; k < len(p.t); k++ {
		switch p.t[k].text {
		case "(", "[":
			depth++
		case ")", "]":
			if depth--; depth == 0 {
				return k
			}
		}
	}
	return -1
}

// amounts reads text that is amounts and nothing else, each with a unit or a pack.
func amounts(text string, s measure.System) (out []Amount, ok bool) {
	p := newParser(text, s)
	for i := 0; i < len(p.t); {
		if i > 0 && p.one(i, "/", ",", ";", "=", "|") {
			i++
		}
		from := i
		if i > 0 && p.is(i, "or") {
			i++
		}
		var l Line
		j, ok := p.lead(i, &l)
		if !ok || l.Amount.Unit == nil && l.Amount.Pack == "" || !l.Each.None() {
			return nil, false
		}
		for p.one(j, "total", "drained", "altogether") {
			l.Note = joinNotes(l.Note, p.slice(j, j+1))
			j++
		}
		all := append([]Amount{l.Amount}, l.Also...)
		if from < i {
			all[0].Text = p.slice(from, i) + " " + all[0].Text
		}
		if l.Note != "" {
			all[len(all)-1].Text += " " + strings.ReplaceAll(l.Note, ",", "")
		}
		out, i = append(out, all...), j
	}
	return out, len(out) > 0
}

func joinNotes(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "":
		return a
	}
	return a + ", " + b
}
