package ingredient

import (
	"strings"

	"example.org/kettledrum/plan/measure"
)

// rest reads what follows the amount: the item, and notes.
func (p *parser) rest(i int, l *Line) {
	for i < len(p.t) && (p.one(i, ",", ":", ";", ".") || p.dash(i)) {
		i++
	}
	if end := p.closing(i); end > 0 && end+1 < len(p.t) { // before the item: "(peeled) 2 carrots"
		p.piece(i, end+1, l)
		i = end + 1
		if u, pk, n, ok := p.unit(i); ok && u == nil && n < len(p.t) && l.Amount.Lo > 0 && l.Amount.Unit == nil && l.Amount.Pack == "" {
			l.Amount.Pack, l.Amount.Text = pk.one, l.Amount.Text+" "+p.slice(i, n) // "2 (inch-thick) slices bread"
			i = n
		}
		p.rest(i, l)
		return
	}
	if end := p.pieceEnd(i); i < len(p.t) && p.starts(i) && p.is(end, ":") && end+1 < len(p.t) { // "for dusting: flour"
		p.piece(i, end, l)
		p.rest(end, l)
		return
	}
	end := p.itemEnd(i, l)
	if j, ok := p.trailing(i, end, l); ok {
		end = j
	}
	l.Item = trim(p.slice(i, end))
	p.after(l)
	for i = end; i < len(p.t); {
		n := p.pieceEnd(i)
		p.piece(i, n, l)
		i = n
	}
}

// itemEnd returns the token at which the item that begins at i ends.
func (p *parser) itemEnd(i int, l *Line) int {
	named := false // something else than adjectives was there
	for k := i; k < len(p.t); k++ {
		t := p.t[k]
		switch {
		case p.one(k, ",", ";"):
			if named || k+1 == len(p.t) || p.is(k, ";") {
				return k
			}
			continue
		case p.one(k, "(", "[") && k > i && p.closing(k) > 0:
			return k
		case p.is(k, ":") && k > i:
			return k
		case p.dash(k) && t.gap && k+1 < len(p.t) && p.t[k+1].gap && k > i:
			return k
		case k > i && p.starts(k):
			return k
		case named && p.endsDone(k):
			return k
		}
		if t.kind == word {
			hyphened := t.text
			for p.dash(k+1) && p.glued(k+1) && p.kind(k+2, word) && p.glued(k+2) {
				hyphened += "-" + p.t[k+2].text
				k += 2
			}
			named = named || !adjectives[hyphened] && !adverbs[hyphened] && !done[hyphened]
		}
	}
	return len(p.t)
}

// starts tells whether a note starts at token i.
func (p *parser) starts(i int) bool {
	for _, n := range noteStarts {
		if p.is(i, n...) {
			return true
		}
	}
	return false
}

// endsDone tells whether token i begins what was done to the thing, and nothing
// else follows up to the end of the part: "2 carrots | peeled and finely sliced".
func (p *parser) endsDone(i int) bool {
	k := i
	for p.kind(k, word) && adverbs[p.t[k].text] && !p.one(k, "and", "or") {
		k++
	}
	if !p.kind(k, word) || !done[p.t[k].text] || p.compound(k+1) || p.dash(k-1) && p.glued(k) {
		return false
	}
	k++
	return k == len(p.t) || p.one(k, ",", ";", "(", "[", "and", "or", "into", "in", "on", "crosswise", "lengthwise", "if", "as", "at", "with", "for") || p.starts(k)
}

// pieceEnd returns the token at which the part of the notes that begins at i ends.
func (p *parser) pieceEnd(i int) int {
	if end := p.closing(i); end > 0 {
		return end + 1
	}
	for k := i + 1; k < len(p.t); k++ {
		if p.one(k, ",", ";", ":") || p.closing(k) > 0 || p.dash(k) && p.t[k].gap && k+1 < len(p.t) && p.t[k+1].gap {
			return k
		}
	}
	return len(p.t)
}

// piece takes a part of the notes: an amount, or words.
func (p *parser) piece(i, end int, l *Line) {
	text := trim(p.slice(i, end))
	inner := text
	if p.closing(i) == end-1 {
		inner = trim(p.slice(i+1, end-1))
	}
	as, ok := amounts(inner, p.system)
	if ok && length(as) && (l.Amount.Unit != nil || l.Amount.None()) {
		ok = false // how thick to cut it
	}
	switch {
	case inner == "":
	case ok && l.Amount.None() && len(as) == 1:
		l.Amount = as[0]
	case ok && l.Amount.None():
		l.Amount, l.Also = as[0], as[1:]
	case ok && l.Each.None() && len(l.Also) == 0 && strings.Contains(strings.ToLower(inner), "each"):
		l.Each, l.Also = as[0], as[1:]
	case ok:
		l.Also = append(l.Also, as...)
	case l.Amount.None() && p.amountFirst(inner, l):
	default:
		l.Note = joinNotes(l.Note, inner)
	}
}

// OnlyDone tells text that says what was done to a thing and names none: "finely
// sliced".
func OnlyDone(text string) bool {
	words := tokensOf(text)
	for _, w := range words {
		if !done[w] && !adverbs[w] {
			return false
		}
	}
	return len(words) > 0
}

// length tells amounts that are no amounts of food.
func length(as []Amount) bool { return as[0].Unit != nil && as[0].Unit.Dimension == measure.Length }

// amountFirst reads a part that begins with an amount and goes on with a note:
// "1/2 tsp or to taste", or is a bare number.
func (p *parser) amountFirst(text string, l *Line) bool {
	q := newParser(text, p.system)
	var m Line
	j, ok := q.lead(0, &m)
	size := j == len(q.t)-1 && adjectives[q.t[j].text] // "2 large"
	if !ok || j < len(q.t) && !size && !q.starts(j) && !q.endsDone(j) && !q.one(j, ",", "(") {
		return false
	}
	if m.Amount.Unit == nil && m.Amount.Pack == "" && m.Each.None() && j < len(q.t) && !size {
		return false
	}
	l.Amount, l.Each, l.Also = m.Amount, m.Each, m.Also
	l.Note = joinNotes(l.Note, joinNotes(m.Note, trim(q.slice(j, len(q.t)))))
	return true
}

// trailing finds an amount at the end of the item, where none stands before it:
// "Milk 250 ml", "Lemons x 2", "Eggs 3". It returns where the item ends.
func (p *parser) trailing(i, end int, l *Line) (next int, ok bool) {
	if !l.Amount.None() {
		return end, false
	}
	for k := i + 1; k < end; k++ {
		from := k
		times := p.one(k, "x", "×") && p.kind(k+1, number)
		if times {
			from++
		}
		if !times && p.t[k].kind != number || p.dash(k-1) && p.glued(k) {
			continue
		}
		q := newParser(p.slice(from, end), p.system)
		var m Line
		j, ok := q.lead(0, &m)
		measured := m.Amount.Unit != nil || m.Amount.Pack != "" || !m.Each.None()
		if !ok || j < len(q.t) && !(measured && (q.starts(j) || q.endsDone(j))) || !measured && !times && !(end-from == 1 && p.t[from].whole) {
			continue
		}
		if times {
			m.Amount.Text = p.slice(k, k+1) + " " + m.Amount.Text
		}
		l.Amount, l.Each, l.Also, l.Note = m.Amount, m.Each, m.Also, joinNotes(l.Note, joinNotes(m.Note, trim(q.slice(j, len(q.t)))))
		// What follows was read from the slice; the item ends here, the rest begins at end.
		p.t = append(p.t[:k:k], p.t[end:]...)
		return k, true
	}
	return end, false
}
