package ingredient

import (
	"strings"

	"example.org/kettledrum/plan/measure"
)

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
