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
