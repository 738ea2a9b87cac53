package tui

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// keysOf turns a typed line into keys. In the middle of a question the whole line
// is the answer; else its first word is a key, and the rest is what that key asks
// for. Enter alone is the space bar, "+8" is eight minutes more.
func keysOf(line string, mode Mode) []KeyMsg {
	answer := func(s string) []KeyMsg {
		if strings.EqualFold(s, "esc") {
			return []KeyMsg{{Key: "esc"}}
		}
		return []KeyMsg{{Key: s, Text: s, Paste: true}, {Key: "enter"}}
	}
	line = strings.TrimSpace(line)
	switch mode {
	case Prompt, Finding:
		return answer(line)
	case Confirm, Choices:
		if line == "" {
			return []KeyMsg{{Key: "esc"}}
		}
		if n, err := strconv.Atoi(line); err == nil && n >= 10 && mode == Choices { // counted on: as good as its letter
			line = choiceKey(n - 1)
		}
		return []KeyMsg{{Key: strings.ToLower(line)}}
	}
	key, rest, _ := strings.Cut(line, " ")
	if n, more := strings.CutPrefix(key, "+"); more && n != "" {
		key, rest = "e", n
	}
	switch {
	case key == "":
		return []KeyMsg{{Key: "space", Text: " "}}
	case rest == "":
		return []KeyMsg{{Key: key}}
	case key == "w" || key == "r": // a number of the list
		return []KeyMsg{{Key: key}, {Key: strings.TrimSpace(rest)}}
	}
	return append([]KeyMsg{{Key: key}}, answer(strings.TrimSpace(rest))...)
}

// teller says in lines what is new since it was last asked.
type teller struct {
	cues     map[string]run.Class
	first    string // the cue that Enter answers, as last told
	open     int    // things unanswered
	message  note
	mode     Mode
	selected string
	asked    string
	ways     int
	begun    bool
	final    bool // what to change was told
}

// news are the lines for what is new in the model.
func (t *teller) news(m *Model) []string {
	if !m.beaten {
		return nil
	}
	var out []string
	say := func(word, text string) {
		lines := strings.Split(text, "\n")
		out = append(out, fmt.Sprintf("%s  %-6s %s", m.clockTime(m.now), word, clean(lines[0], m.th.ASCII)))
		for _, l := range lines[1:] {
			out = append(out, strings.Repeat(" ", 14)+clean(l, m.th.ASCII))
		}
	}
	if !t.begun {
		t.begun, t.cues = true, map[string]run.Class{}
		if m.following {
			say("", m.state.Plan.Title+"; "+onlyFollows+"; ? lists the keys, q quits")
		} else {
			say("", m.state.Plan.Title+"; Enter answers what is due, ? lists the keys, q quits")
		}
	}
	if m.message.text != "" && m.message != t.message {
		say("", m.message.text)
	}
	t.message = m.message
	cues := map[string]run.Class{}
	for i := range m.moment.Cues {
		c := &m.moment.Cues[i]
		cues[c.ID] = c.Class
		old, known := t.cues[c.ID]
		if i == 0 && (c.ID != t.first || !known || c.Class < old) {
			say(theme.Word(c.Class), c.Text+enterDoes(m))
			continue
		}
		if !known || c.Class < old {
			say(theme.Word(c.Class), c.Text)
		}
	}
	t.cues, t.first = cues, ""
	if len(m.moment.Cues) > 0 {
		t.first = m.moment.Cues[0].ID
	}
	if n := len(m.moment.Unconfirmed); n > t.open {
		if m.following {
			say("", m.unanswered())
		} else {
			say("", m.unanswered()+": a says that all went as planned")
		}
	}
	t.open = len(m.moment.Unconfirmed)
	if n := len(m.ways()); n > 0 && n != t.ways {
		say("", m.remediesKnown()+"r lists them")
	}
	t.ways = len(m.ways())
	t.askedFor(m, say)
	if m.selected != t.selected && m.selected != "" && m.mode == Main && m.writing == nil {
		if r, ok := m.chosen(); ok {
			say("", "marked: "+m.rowText(&r))
		}
	}
	t.selected = m.selected
	if m.mode != t.mode && (m.mode == StepView || m.mode == Days || m.mode == Log || m.mode == Help || m.mode == List || m.mode == Lanes || m.mode == Far || m.mode == Debrief) {
		out = append(out, m.told()...)
	}
	t.mode = m.mode
	if n := len(m.debrief.sections); m.debrief.final && !t.final && n > 0 {
		out = append(out, stripped(m.sectionLines(m.debrief.sections[n-1:], m.width))...)
	}
	t.final = m.debrief.final
	return out
}

// askedFor says what is asked.
func (t *teller) askedFor(m *Model, say func(word, text string)) {
	asked := ""
	switch m.mode {
	case Prompt:
		asked = m.prompt.title + ", " + m.prompt.hint + "; esc drops it"
	case Finding:
		asked = "find a step: type a part of its name"
	case Confirm:
		asked = m.confirm.text + " y or n\n" + m.confirm.hint
	case Choices:
		asked = m.choices.title + " Type its number, or its letter; Enter alone leaves it"
		for i, c := range m.choices.of {
			asked += fmt.Sprintf("\n%s  %s", choiceKey(i), c.says())
			if c.more != "" {
				asked += ": " + strings.ReplaceAll(c.more, "\n", "; ")
			}
		}
	}
	if asked != "" && asked != t.asked {
		say("?", strings.TrimRight(asked, "\n"))
	}
	t.asked = asked
}

// enterDoes says what Enter does.
func enterDoes(m *Model) string {
	if m.following {
		return ""
	}
	return " (Enter: " + answerLabel(m) + ")"
}

func rowName(r *row) string {
	switch {
	case r.cue != nil:
		return r.cue.Text
	case r.going != nil:
		return r.going.Label
	}
	return ""
}

// told is a view as lines: what the screen would show, without its frame. Of what
// is drawn to be looked at, how everything stands.
func (m *Model) told() []string {
	var body []string
	switch m.mode {
	case StepView:
		body = m.viewStep(m.width, 200)
	case Days:
		body = m.viewDays(m.width, 500)
	case Help:
		c := *m
		c.height = 200
		body = c.viewHelp()
	case Log:
		body = m.logLines(m.width)
	case Debrief:
		body = m.debriefLines(m.width)
	case List:
		body = m.viewList(m.width, len(m.moment.Unconfirmed)+2)
	default:
		body = m.standing()
	}
	return stripped(body)
}

// stripped are lines without what is only for a screen.
func stripped(body []string) []string {
	var out []string
	for _, s := range body {
		if s = strings.TrimRight(ansi.Strip(s), " "); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// standing are the panes of the main screen, one after the other.
func (m *Model) standing() []string {
	var out []string
	for p := paneGoing; p < panes; p++ {
		for i, s := range m.body(p, 100, 50) {
			label := ""
			if i == 0 {
				label = labels[p]
			}
			out = append(out, fmt.Sprintf("%-*s%s", gutter, label, s))
		}
	}
	return out
}
