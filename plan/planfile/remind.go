package planfile

import (
	"fmt"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/safety"
)

// reminds reads `remind`: one reminder or a list. Without quotes YAML takes
// "every 30m: baste" for a key and its value, which says the same.
func (d *decoder) reminds(n *yaml.Node) []plan.Remind {
	if n == nil {
		return nil
	}
	var out []plan.Remind
	for _, c := range d.list(n, "`remind`") {
		switch c.Kind {
		case yaml.ScalarNode:
			if r, ok := value(d, c, "a reminder", remind); ok {
				out = append(out, r)
			}
		case yaml.MappingNode:
			for i := 0; i+1 < len(c.Content); i += 2 {
				key, v := c.Content[i], c.Content[i+1]
				when, ok := d.text(key, "when to remind")
				if !ok {
					continue
				}
				text, ok := d.text(v, "what to do "+short(when))
				if !ok {
					continue
				}
				r, err := remindWhen(when)
				if err != nil {
					d.failWith(key, respell(when, err, remindWhen))
					continue
				}
				r.Text = text
				out = append(out, r)
			}
		default:
			d.fail(c, "wrong-kind", "a reminder is text, not "+kindOf(c), remindForm)
		}
	}
	return out
}

const remindForm = `write it like "every 30m: baste", "halfway: turn the tray" or "5m before end: warm the plates"`

// remind reads "every 30m: baste".
func remind(s string) (plan.Remind, error) {
	when, text, ok := strings.Cut(s, ": ")
	if !ok || strings.TrimSpace(text) == "" {
		return plan.Remind{}, &mistake{"remind", fmt.Sprintf("%s does not say when and, after a colon, what", quote(s)), remindForm}
	}
	r, err := remindWhen(strings.TrimSpace(when))
	r.Text = strings.Join(strings.Fields(text), " ")
	return r, err
}

var beforeEnd = regexp.MustCompile(`^(.+) before (?:the )?end$`)

// remindWhen reads "every 30m", "halfway" or "5m before end".
func remindWhen(s string) (r plan.Remind, err error) {
	every, isEvery := strings.CutPrefix(s, "every ")
	m := beforeEnd.FindStringSubmatch(s)
	switch {
	case s == "halfway":
		return plan.Remind{When: plan.Halfway}, nil
	case isEvery:
		r.When = plan.Every
		r.For, err = Duration(every)
	case m != nil:
		r.When = plan.BeforeEnd
		r.For, err = Duration(m[1])
	default:
		first, _, _ := strings.Cut(s, " ")
		hint := remindForm
		if w, ok := nearest(first, []string{"every", "halfway"}, 3); ok {
			hint = fmt.Sprintf("did you mean %s?", w)
		}
		return r, &mistake{"remind", fmt.Sprintf("%s is no time within a step", quote(s)), hint}
	}
	if err == nil && r.For == 0 {
		err = &mistake{"remind", fmt.Sprintf("%s is no time within a step", quote(s)), "give it a minute at least"}
	}
	return r, err
}

var codeForm = regexp.MustCompile(`^` + pCode + `$`)

// accepts reads `accept`: [code, reason] or a list of such.
func (d *decoder) accepts(n *yaml.Node) []plan.Accepted {
	if n == nil {
		return nil
	}
	const hint = "write it like [two-hours, it is cooled in between]"
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 {
		d.fail(n, "wrong-kind", "`accept` is a code and a reason, not "+kindOf(n), hint)
		return nil
	}
	pairs := n.Content
	if n.Content[0].Kind == yaml.ScalarNode {
		pairs = []*yaml.Node{n}
	}
	var out []plan.Accepted
	for _, p := range pairs {
		if p.Kind != yaml.SequenceNode || len(p.Content) < 2 {
			d.fail(p, "wrong-kind", "what is accepted has a code and a reason", hint)
			continue
		}
		code, ok := d.text(p.Content[0], "the code of a caution")
		reason, ok2 := d.text(p.Content[1], "the reason")
		switch {
		case !ok || !ok2:
		case len(p.Content) > 2:
			for _, c := range p.Content[2:] {
				reason += ", " + c.Value
			}
			d.fail(p.Content[2], "broken-text", "a comma ends the reason before "+quote(p.Content[2].Value), "put the reason in quotes: "+quotes(reason))
		case !codeForm.MatchString(code):
			d.fail(p.Content[0], "accept", fmt.Sprintf("%s is no code of a caution", quote(code)), "the code is the word in brackets that `check` shows with it, like two-hours")
		case !contains(safety.Codes(), code):
			hint := "the code is the word in brackets that `check` shows with it"
			if w, ok := nearest(code, safety.Codes(), 3); ok {
				hint = fmt.Sprintf("did you mean %s?", w)
			}
			d.fail(p.Content[0], "accept", fmt.Sprintf("there is no caution %s", quote(code)), hint)
		default:
			out = append(out, plan.Accepted{Code: code, Reason: reason})
		}
	}
	return out
}
