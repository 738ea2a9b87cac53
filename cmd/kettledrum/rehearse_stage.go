package main

import (
	"context"
	"fmt"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/debrief"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/mishap"
	"example.org/kettledrum/plan/rehearse"
	"example.org/kettledrum/plan/remedy"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// staged is a rehearsal that is set up: what is played, from when on.
type staged struct {
	r      *rehearsal
	src    source
	p      *plan.Plan
	t      *plan.Timetable
	script []mishap.Mishap // nil: nothing goes wrong
	drawn  *rehearse.Drawn // by the seed, nil without
	from   time.Time
	last   time.Time // when the last hours begin, or the rehearsal where that is later
	s      *session.Session
	fast   *clock.Fast
	told   rehearse.Told
}

// begin says when the rehearsal begins. On a screen with the last hours: what was made
// ahead counts as made. What goes wrong before that is rehearsed too.
func (x *staged) begin() (err error) {
	start := first(x.p, x.t).Add(-beforeFirst)
	x.last = plan.Later(start, firstOn(x.p, x.t, x.p.CookDay()).Add(-beforeFirst))
	x.from = start
	if x.r.seen() || x.r.walks {
		x.from = x.last
	}
	for _, m := range x.script {
		if !m.At.IsZero() {
			x.from = plan.Earlier(x.from, m.At)
		}
	}
	if x.r.from != "" {
		x.from, err = timeOfDay(x.p, x.t, x.r.from)
	}
	x.last = plan.Later(x.last, x.from)
	return err
}

// draw adds to the script what the seed draws. With a script of mishaps only lengths
// are drawn, and none of a step that the script has its own for.
func (x *staged) draw() {
	if !x.r.seeded {
		return
	}
	d := rehearse.Draw(x.p, x.t, x.last, x.r.seed)
	if x.script != nil {
		d.Mishaps = nil
	}
	told := map[int]bool{}
	for _, m := range x.script {
		told[m.Step] = told[m.Step] || m.Kind == mishap.Takes || m.Kind == mishap.Longer
	}
	for _, m := range d.Script() {
		if m.Step < 0 || !told[m.Step] {
			x.script = append(x.script, m)
		}
	}
	x.drawn = &d
}

// drawnText says what the seed has drawn.
func (x *staged) drawnText() string {
	text := fmt.Sprintf("seed %d draws %s, %s", x.r.seed, count(x.drawn.Ranges, "length", "lengths"), count(len(x.drawn.Mishaps), "mishap", "mishaps"))
	if n := x.drawn.Without; n > 0 {
		text += fmt.Sprintf("; %s as written", count(n, "step goes", "steps go"))
	}
	return text
}

// open opens a session that went as planned up to an instant, in memory, on a clock
// that stands there until there is somebody to see it, or jumps.
func (x *staged) open(ctx context.Context, p *plan.Plan, t *plan.Timetable, from time.Time, speed float64) (*session.Session, *clock.Fast, error) {
	fast := clock.NewFast(x.r.w.clock, from, 0)
	fast.HoldAt(from)
	fast.SetSpeed(speed)
	cfg := sessionConfig(fast, new(journal.Memory))
	// The timetable is there already.
	cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return t }
	cfg.Plan = p
	cfg.Copy = x.src.copyOf(p, x.r.how)
	cfg.Copy.Rehearse = true
	s, err := session.Open(ctx, cfg)
	if err != nil {
		return nil, nil, fail(exitJournal, err)
	}
	if from.After(first(p, t).Add(-beforeFirst)) {
		if _, err := s.FastForward(from); err != nil {
			return nil, nil, fail(exitJournal, err)
		}
	}
	if speed == 0 {
		fast.HoldAt(time.Time{})
	}
	return s, fast, nil
}

// show rehearses on a screen, or in lines that somebody answers.
func (x *staged) show(ctx context.Context) error {
	l := live{conductor: x.s, remedies: x.s, clock: x.fast, fast: x.fast, hear: x.r.hear,
		debrief: debriefed{through: x.r.through, look: x.sections, improve: x.improved}}
	if x.script != nil {
		player := rehearse.New(ctx, x.s, x.script, x.from, rehearse.Watcher{Mishap: x.told.Add})
		l.conductor = &rehearse.Conductor{Session: x.s, Player: player, Clock: x.fast}
		l.debrief.news = x.news
	}
	if x.drawn != nil {
		l.hint = x.drawnText()
	}
	return x.r.w.show(ctx, x.r.look, l)
}

// news say what befell the rehearsal since it was last asked, each in a line.
func (x *staged) news() (out []string) {
	for _, m := range x.told.News() {
		word, text := x.mishapText(m)
		if word == "mishap" {
			text = "mishap: " + text
		}
		out = append(out, text)
	}
	return out
}

// mishapText is a mishap that was played, and the word for it.
func (x *staged) mishapText(m rehearse.Played) (word, text string) {
	word, text = "mishap", m.Text(x.p)
	if m.Kind == mishap.Takes && m.Pos.Line == 0 { // drawn
		word = "length"
		text += ", planned " + plan.Spell(x.p.Steps[m.Step].Length.Planned())
	}
	if m.Took != "" {
		text += ": " + m.Took
	}
	if m.Refused != "" {
		text += "\nnot played: " + m.Refused
	}
	return word, text
}

// dinner is the rehearsal as it went, to be looked back at.
func (x *staged) dinner() debrief.Dinner {
	st := x.s.State()
	return debrief.Dinner{Plan: st.Base, Stood: st.Plan, Guests: st.Guests(), Planned: x.t, Was: x.s.Happened(), From: x.last}
}

// stage is where a dinner is played again.
func (x *staged) stage() *rehearse.Stage {
	return &rehearse.Stage{
		Make: made, Until: patience, Before: beforeFirst,
		Open: func(ctx context.Context, p *plan.Plan, t *plan.Timetable, from time.Time) (*session.Session, clock.Jumper, error) {
			s, fast, err := x.open(ctx, p, t, from, 0)
			return s, fast, err
		},
	}
}

// lookBack is the debrief, and what came of the ideas to be less late; of none where it
// is not late.
func (x *staged) lookBack(ctx context.Context) (debrief.Dinner, debrief.Debrief, []debrief.Tried, error) {
	d := x.dinner()
	b := debrief.Of(d)
	told := review.Mishaps(x.s.State(), noneOffered).Mishaps // what the cook told is among it
	tried, err := x.stage().Try(ctx, d, told, debrief.Ideas(d, b))
	return d, b, tried, err
}

// noneOffered has a way out that was taken not be taken again: where the dinner goes
// otherwise there may be another in its place.
func noneOffered([]run.Event, time.Time) []remedy.Remedy { return nil }

// sections is the debrief as it is read, without what to change.
func (x *staged) sections() []debrief.Section {
	d := x.dinner()
	b := debrief.Of(d)
	return append(x.wrong(), b.Sections(d, nil)...)
}

// improved is the debrief with what to change, nil where that could not be found out.
func (x *staged) improved(ctx context.Context) []debrief.Section {
	d, b, tried, err := x.lookBack(ctx)
	if err != nil {
		return nil
	}
	return append(x.wrong(), b.Sections(d, tried)...)
}

// wrong tells what went wrong in the rehearsal, where anything was to.
func (x *staged) wrong() []debrief.Section {
	if x.script == nil {
		return nil
	}
	w := debrief.Section{Title: "What went wrong"}
	say := func(text string) { w.Lines = append(w.Lines, debrief.Line{Text: text}) }
	longer, shorter := 0, 0
	for _, m := range x.told.All() {
		word, text := x.mishapText(m)
		switch {
		case word == "mishap":
			say(hour(m.At.In(x.p.Table.Location())) + " " + text)
		case m.Refused != "":
		case m.By > x.p.Steps[m.Step].Length.Planned():
			longer++
		default:
			shorter++
		}
	}
	if x.drawn != nil {
		say(fmt.Sprintf("of %s with a range %d took longer than planned, %d shorter", count(x.drawn.Ranges, "step", "steps"), longer, shorter))
	}
	if w.Lines == nil {
		say("nothing")
	}
	return []debrief.Section{w}
}

// firstOn returns when the first step on or after a day begins, or the oven is set for it.
func firstOn(p *plan.Plan, t *plan.Timetable, day time.Time) time.Time {
	first := p.Table
	if at := t.FirstOn(day); !at.IsZero() {
		first = plan.Earlier(first, at)
	}
	for _, s := range t.Sets {
		if s.At.Before(first) && !s.At.Before(day) {
			first = s.At
		}
	}
	return first
}
