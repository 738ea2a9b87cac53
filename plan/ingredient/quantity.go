package ingredient

import "example.org/kettledrum/plan/measure"

// parser is one line, or a part of one, being taken apart. Its functions look at
// the tokens from i on and return the token after what they found.
type parser struct {
	text   string
	t      []token
	system measure.System
}

func newParser(text string, s measure.System) *parser { return &parser{text, tokens(text), s} }

// is tells whether these are the tokens from i on.
func (p *parser) is(i int, texts ...string) bool {
	if i < 0 || i+len(texts) > len(p.t) {
		return false
	}
	for k, s := range texts {
		if p.t[i+k].text != s {
			return false
		}
	}
	return true
}

// one tells whether token i is any of these.
func (p *parser) one(i int, texts ...string) bool {
	for _, s := range texts {
		if p.is(i, s) {
			return true
		}
	}
	return false
}

// kind tells whether token i is there and of the kind.
func (p *parser) kind(i int, k kind) bool { return i >= 0 && i < len(p.t) && p.t[i].kind == k }

// glued tells whether token i follows the one before it without a blank.
func (p *parser) glued(i int) bool { return i > 0 && i < len(p.t) && !p.t[i].gap }

// slice is the text of the tokens from i up to j.
func (p *parser) slice(i, j int) string {
	if i >= j {
		return ""
	}
	return p.text[p.t[i].from:p.t[j-1].to]
}

// dash tells whether token i is a hyphen or a dash.
func (p *parser) dash(i int) bool { return p.one(i, "-", "–", "—", "‐", "‑", "−") }

// most is the greatest number that is taken for an amount.
const most = 1e6

// figure reads a number in figures: 2, 2.5, ½, 1/2, 2½, 2 1/2, 2-1/2, 1 and 1/2.
func (p *parser) figure(i int) (v float64, next int, ok bool) {
	if v, next, ok = p.fraction(i); ok {
		return v, next, true
	}
	if !p.kind(i, number) || p.one(i+1, "/", "⁄") && p.glued(i+1) && p.kind(i+2, number) && p.glued(i+2) {
		return 0, i, false // a date, or a fraction of nothing
	}
	t := p.t[i]
	if t.value < 0 || t.value > most || len(t.text) > 1 && t.text[:2] == "00" {
		return 0, i, false
	}
	v, next = t.value, i+1
	if t.whole {
		k := next
		switch {
		case p.dash(k) && p.glued(k) && p.glued(k+1), p.one(k, "and", "&"):
			k++
		}
		if f, n, ok := p.fraction(k); ok && f < 1 {
			v, next = v+f, n
		}
	}
	return v, next, !(p.one(next, "%", "°", "º") && p.glued(next))
}

// fraction reads ½ or 1/2.
func (p *parser) fraction(i int) (v float64, next int, ok bool) {
	if !p.kind(i, number) {
		return 0, i, false
	}
	if p.t[i].fraction {
		return p.t[i].value, i + 1, true
	}
	if !p.t[i].whole || !p.one(i+1, "/", "⁄") || !p.glued(i+1) || !p.kind(i+2, number) || !p.glued(i+2) || !p.t[i+2].whole ||
		p.t[i+2].value == 0 || p.t[i+2].value > 100 || p.one(i+3, "/") && p.glued(i+3) {
		return 0, i, false
	}
	return p.t[i].value / p.t[i+2].value, i + 3, true
}

// number reads a number in figures or in words: "two", "half a", "a dozen", "one
// and a half", "three quarters".
func (p *parser) number(i int) (v float64, next int, ok bool) {
	if v, next, ok = p.figure(i); !ok {
		v, next, ok = p.spelled(i)
	}
	if ok && p.is(next, "dozen") {
		v, next = v*12, next+1
	}
	return v, next, ok
}

func (p *parser) spelled(i int) (v float64, next int, ok bool) {
	if !p.kind(i, word) || p.dash(i+1) && p.glued(i+1) {
		return 0, i, false // five-spice
	}
	switch {
	case p.is(i, "half", "and", "half"):
		return 0, i, false // a kind of cream
	case p.is(i, "half", "a"), p.is(i, "half", "an"):
		return 0.5, i + 2, true
	case p.is(i, "half") && i+1 < len(p.t):
		return 0.5, i + 1, true
	case p.is(i, "a", "half"), p.is(i, "one", "half"):
		return 0.5, i + 2, true
	case p.is(i, "a", "third"), p.is(i, "one", "third"):
		return 1. / 3, i + 2, true
	case p.is(i, "two", "thirds"):
		return 2. / 3, i + 2, true
	case p.is(i, "a", "quarter"), p.is(i, "one", "quarter"):
		return 0.25, i + 2, true
	case p.is(i, "three", "quarters"):
		return 0.75, i + 2, true
	case p.is(i, "a", "couple"):
		return 2, i + 2, true
	case p.is(i, "dozen"):
		return 1, i, true // the caller sees the word
	}
	if v, ok = numbers[p.t[i].text]; !ok || i+1 >= len(p.t) {
		return 0, i, false
	}
	if p.is(i+1, "and", "a", "half") {
		return v + 0.5, i + 4, true
	}
	return v, i + 1, true
}

// quantity is a number or a range.
type quantity struct {
	lo, hi float64
	about  bool
}

// quantity reads a number or a range, with what says that it is not exact.
func (p *parser) quantity(i int) (q quantity, next int, ok bool) {
	next = i
	for {
		switch {
		case p.kind(next, word) && aboutWords[p.t[next].text], p.is(next, "~"):
			next++
			if p.is(next, ".") {
				next++
			}
		case p.is(next, "just", "under"), p.is(next, "just", "over"), p.is(next, "up", "to"), p.is(next, "at", "least"),
			p.is(next, "more", "than"), p.is(next, "less", "than"), p.is(next, "at", "most"):
			next += 2
		default:
			q.about = next > i
			goto counted
		}
	}
counted:
	between := p.is(next, "between")
	if between {
		next++
	}
	if q.lo, next, ok = p.number(next); !ok {
		return q, i, false
	}
	q.hi = q.lo
	k := next
	if p.dash(k) || p.one(k, "to", "or") || between && p.is(k, "and") {
		if hi, n, ok := p.number(k + 1); ok && hi > q.lo && !(p.kind(k+1, word) && p.one(k+1, "a", "an")) {
			q.hi, next = hi, n
		}
	}
	return q, next, q.lo > 0
}

// unit reads a unit of measure or a pack, with an adjective before it: "heaped
// tbsp", "large handful", or a hyphen: "14-oz".
func (p *parser) unit(i int) (u *measure.Unit, pk pack, next int, ok bool) {
	k := i
	if p.dash(k) && p.glued(k) && p.glued(k+1) {
		k++
	}
	for n := 0; n < 2 && p.kind(k, word); n++ {
		switch {
		case p.dash(k+1) && p.one(k+2, "size", "sized") && k+3 < len(p.t): // thumb-sized
			k += 3
		case beforeUnit[p.t[k].text] && k+1 < len(p.t):
			k++
		}
	}
	for words := 3; words > 0; words-- {
		text, n := "", k
		for w := 0; w < words && (p.kind(n, word) || p.one(n, `"`, "#", "″")); w++ {
			text += " " + p.slice(n, n+1)
			for n++; p.is(n, ".") && p.glued(n); n++ {
			}
		}
		if u, ok := measure.Find(text, p.system); ok && !p.compound(n) {
			return u, pack{}, n, true
		}
	}
	if p.kind(k, word) {
		if pk, ok = packs[p.t[k].text]; ok {
			for k++; p.is(k, ".") && p.glued(k); k++ {
			}
			return nil, pk, k, !p.compound(k)
		}
	}
	return nil, pack{}, i, false
}

// compound tells whether the word before token i goes on with a hyphen: T-bone.
func (p *parser) compound(i int) bool {
	return p.dash(i) && p.glued(i) && p.kind(i+1, word) && p.glued(i+1) && packs[p.t[i+1].text].one == ""
}
