package ingredient

import (
	"regexp"
	"strings"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
)

// Of takes an ingredient of a plan apart. The parts of the structured form are not
// guessed at: What is the item, as it is written.
func Of(i plan.Ingredient, s measure.System) Line {
	if i.What == "" {
		l := Parse(i.Text, s)
		l.Frozen = l.Frozen || i.Frozen
		return l
	}
	l := Line{Text: i.Text, Item: i.What}
	if i.Amount != "" {
		p := newParser(tidy(i.Amount), s)
		if j, ok := p.lead(0, &l); ok {
			l.Note = joinNotes(l.Note, trim(p.slice(j, len(p.t))))
		} else {
			l.Amount = Amount{Text: i.Amount}
		}
	}
	l.Note = joinNotes(l.Note, i.Note)
	l.hints()
	l.Frozen = l.Frozen || i.Frozen
	return l
}

// longest is how many bytes are taken for a line; beyond it is no ingredient, and
// reading costs the square of it.
const longest = 600

// Parse takes a line apart. Names that several systems share, as a cup or a pint,
// are those of s. Every text can be read; what is not understood is the item.
func Parse(text string, s measure.System) Line {
	text = tidy(text)
	l := Line{Text: text}
	if name, ok := heading(text); ok {
		l.Heading, l.Item = true, name
		return l
	}
	if len(text) > longest {
		l.Item = text
		return l
	}
	p := newParser(text, s)
	p.line(&l)
	if len(tokensOf(l.Item)) == 0 {
		l = Line{Text: text, Item: text}
	}
	l.hints()
	return l
}

// tidy makes runs of blanks one and takes the sign of a list away.
func tidy(text string) string {
	text = strings.Join(strings.Fields(strings.ToValidUTF8(text, "�")), " ")
	for _, sign := range []string{"- ", "– ", "* ", "• ", "· ", "[ ] ", "☐ "} {
		text = strings.TrimPrefix(text, sign)
	}
	return text
}

// trim takes the marks between parts from both ends.
func trim(s string) string {
	s = strings.TrimRight(s, " ,;:–—-.")
	for {
		s = strings.TrimLeft(s, " ,;:–—-")
		if !strings.HasPrefix(s, ".") || run(s[1:]) > 0 { // .5 is a number
			return s
		}
		s = s[1:]
	}
}

// tokensOf returns the words and numbers of a text.
func tokensOf(s string) []string {
	var out []string
	for _, t := range tokens(s) {
		if t.kind != mark {
			out = append(out, t.text)
		}
	}
	return out
}

// heading finds a line that names a part of the recipe: "For the sauce:".
func heading(text string) (string, bool) {
	name, colon := strings.CutSuffix(text, ":")
	words := tokensOf(name)
	if len(words) == 0 || len(words) > 8 || strings.ContainsAny(name, ",:(0123456789") {
		return "", false
	}
	forThe := len(words) > 2 && words[0] == "for" && words[1] == "the"
	return name, colon || forThe && len(words) <= 6
}

func (p *parser) line(l *Line) {
	i := p.juiceOf(l)
	if j, ok := p.lead(i, l); ok {
		_, n, counted := p.quantity(i)
		if (j == len(p.t) || p.one(j, ",", ";", "(") || p.starts(j)) && counted && l.Amount.Pack != "" && l.Each.None() && n < j {
			// "6 cloves": nothing else is named.
			*l = Line{Text: l.Text, Note: l.Note, Amount: l.Amount}
			l.Amount.Pack, l.Amount.Text = "", p.slice(i, n)
			j = n
		}
		i = j
	}
	p.rest(i, l)
}

var (
	juices  = set("juice zest rind peel seeds leaves")
	juicing = set("the finely grated freshly squeezed strained juice zest rind peel seeds leaves and & , coarsely")
)

// juiceOf reads what stands before the thing itself: "juice and zest of" 1 lemon.
func (p *parser) juiceOf(l *Line) int {
	found := false
	for k := 0; k < len(p.t) && k < 8; k++ {
		if found && p.one(k, "of", "from") && k+1 < len(p.t) {
			l.Note = p.slice(0, k+1)
			return k + 1
		}
		if !juicing[p.t[k].text] {
			break
		}
		found = found || juices[p.t[k].text]
	}
	return 0
}

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

// after takes a part of a plant that stands behind its name into the amount: "3
// garlic cloves" are 3 cloves of garlic.
func (p *parser) after(l *Line) {
	words := strings.Fields(l.Item)
	if l.Amount.Lo == 0 || l.Amount.Unit != nil || l.Amount.Pack != "" || len(words) < 2 {
		return
	}
	last := len(words) - 1
	pk, name := packs[strings.ToLower(words[last])], strings.ToLower(words[last-1])
	if name == "of" || adjectives[name] {
		return
	}
	if of, ok := behind[pk.one]; ok && (of == "" || strings.Contains(" "+of+" ", " "+name+" ")) {
		l.Amount.Pack, l.Amount.Text, l.Item = pk.one, l.Amount.Text+" "+words[last], strings.Join(words[:last], " ")
	}
}

var (
	optionalWords = regexp.MustCompile(`(?i)\b(optional(ly)?|if (liked|desired|using|wanted|you like))\b`)
	tasteWords    = regexp.MustCompile(`(?i)\bto (your )?taste\b`)
	frozenWords   = regexp.MustCompile(`(?i)\bfrozen\b`)
	maybeFrozen   = regexp.MustCompile(`(?i)\b(or|not|never) frozen\b|\bfrozen or\b`)
	personWords   = regexp.MustCompile(`(?i)\b(per (person|guest|head)|a head|each guest|for each guest)$`)
	moreWords     = regexp.MustCompile(`(?i)(\bplus|\+|\band|\bor) (some |a little |a bit )?(more|extra)\b|\bextra (for|to)\b|\bas (needed|required|desired)\b`)
)

// hints sets what the words of the line tell.
func (l *Line) hints() {
	l.Optional = optionalWords.MatchString(l.Text)
	l.ToTaste = tasteWords.MatchString(l.Text)
	l.Frozen = frozenWords.MatchString(l.Text) && !maybeFrozen.MatchString(l.Text)
	l.PerPerson = personWords.MatchString(strings.TrimRight(l.Note, " )."))
	l.More = moreWords.MatchString(l.Text)
}
