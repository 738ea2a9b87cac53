package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// soonest is how long before its first step a dinner can be opened: the evening
// before a session in the morning. After its table it can be gone on with for as
// long.
const soonest = 18 * time.Hour

// missed is how long after its first step a dinner that nobody has begun is taken
// to have been made so far without being told: by then it is another day.
const missed = 12 * time.Hour

// cookCommand is the live run.
func cookCommand(w *world) *cobra.Command {
	var k cook
	k.w = w
	c := &cobra.Command{
		Use:   "cook [FILE]",
		Short: "Conduct the dinner; goes on where it stood",
		Args:  oneFile,
		RunE:  func(c *cobra.Command, args []string) error { return k.run(c.Context(), args) },
	}
	k.how.flags(c)
	k.how.sureFlag(c)
	k.look.flags(c)
	k.hear.flags(c)
	c.Flags().BoolVar(&k.made, "made-ahead", false, "what was to be done on the days before today is done")
	c.Flags().BoolVar(&k.mend, "mend", false, "go on from before a damaged line of the journal; the damaged one is kept")
	return c
}

// cook is one call of the cook command.
type cook struct {
	w    *world
	how  reading
	made bool
	mend bool
	look appearance
	hear hearing
	src  source
	// first is the first timetable of a new run, once inTime has made it.
	first *plan.Timetable
}

func (k *cook) run(ctx context.Context, args []string) error {
	w := k.w
	if err := k.look.canShow(w, "cook"); err != nil {
		return err
	}
	if err := k.hear.check(); err != nil {
		return err
	}
	var err error
	if k.src, err = readSource(args); err != nil {
		return err
	}
	if len(args) == 0 {
		w.msg.say("no FILE given: conducting the built-in example, %s", k.src.name)
	}
	state, err := journal.StateDir()
	if err != nil {
		return fail(exitJournal, err)
	}
	dir, p, err := k.find(ctx, state)
	if err != nil {
		return err
	}
	lock, err := journal.Acquire(dir, w.clock.Now())
	if err != nil {
		return locked(err)
	}
	defer lock.Release()
	j, past, err := k.open(dir)
	if err != nil {
		return err
	}
	defer j.Close()
	cfg := sessionConfig(w.clock, j)
	if len(past) > 0 {
		p, err = k.goOn(past)
	} else if p == nil {
		if p, err = k.src.load(w, k.how); err == nil && k.how.sure > 0 {
			k.plan(ctx, p)
		}
	}
	if err != nil {
		return err
	}
	cfg.Plan, cfg.Past = p, past
	cfg.Copy = k.src.copyOf(p, k.how)
	if k.first != nil {
		cfg.Make = func(context.Context, *plan.Plan) *plan.Timetable { return k.first }
	}
	if k.made {
		cfg.Made = midnight(w.clock.Now().In(p.Table.Location()))
	}
	s, err := session.Open(ctx, cfg)
	if err != nil {
		return fail(exitJournal, err)
	}
	err = w.show(ctx, k.look, live{conductor: s, remedies: s, clock: w.clock, resume: k.command(), askFar: true, awake: true,
		hear: k.hear, dir: dir})
	if err != nil { // the last line says how to go on
		return withHint(err, "the dinner is in the journal as it stands; to go on: "+k.command())
	}
	k.farewell(s.State())
	return nil
}

// find returns the folder of the run: of one under way, or a new one's, and
// then the plan.
func (k *cook) find(ctx context.Context, state string) (dir string, p *plan.Plan, err error) {
	now := k.w.clock.Now()
	if k.how.serve == "" {
		if dir, ok := underWay(state, k.src.key(), now); ok {
			return dir, nil, nil
		}
	}
	if p, err = k.src.load(k.w, k.how); err != nil {
		return "", nil, err
	}
	dir = journal.RunDir(state, p.Title, p.Table)
	if now.Sub(p.Table) <= soonest && begun(dir) {
		return dir, p, nil
	}
	return dir, p, k.inTime(ctx, p, now)
}

// plan makes the first timetable.
func (k *cook) plan(ctx context.Context, p *plan.Plan) {
	x := k.how.planned(ctx, k.w, p)
	x.tell(k.w)
	k.first = x.table
}

// inTime plans a dinner, and refuses one that cannot begin now.
func (k *cook) inTime(ctx context.Context, p *plan.Plan, now time.Time) error {
	table := fmt.Sprintf("%s, %s", day(p.Table), hour(p.Table))
	again := fmt.Sprintf("to cook it today: %s --serve %s", k.command(), hour(p.Table))
	if !now.Before(p.Table) {
		return fail(exitUse, fmt.Errorf("the dinner of %s is past: its table was %s", k.src.name, table), again)
	}
	k.plan(ctx, p)
	begins := first(p, k.first)
	switch {
	case now.Sub(begins) > missed && !k.made:
		return fail(exitUse, fmt.Errorf("the dinner of %s begins on %s, %s, and nothing was told of that day", k.src.name, day(begins), hour(begins)),
			fmt.Sprintf("if what was to be done on the days before is done: %s --made-ahead", k.command()),
			"if not, take it out of the plan, or move the dinner with --serve")
	case begins.Sub(now) <= soonest:
		return nil
	}
	return fail(exitUse, fmt.Errorf("the dinner of %s is too far ahead: its first step is %s, %s, its table %s, and cook opens it %s before the first step",
		k.src.name, day(begins), hour(begins), table, plan.Spell(soonest)), again)
}

// open opens the journal in dir. A damaged one is mended only when asked.
func (k *cook) open(dir string) (*journal.Journal, []run.Event, error) {
	j, recs, torn, err := journal.Open(journal.OS{}, dir)
	var damage *journal.DamagedError
	if errors.As(err, &damage) {
		if !k.mend {
			return nil, nil, fail(exitJournal, err,
				fmt.Sprintf("to go on from before that line: %s --mend; what comes after it is put aside", k.command()))
		}
		aside, err := journal.RecoverBefore(journal.OS{}, damage)
		if err != nil {
			return nil, nil, fail(exitJournal, err)
		}
		k.w.msg.say("the damaged journal is kept as %s; going on from before its line %d", aside, damage.Line)
		j, recs, torn, err = journal.Open(journal.OS{}, dir)
		if err != nil {
			return nil, nil, fail(exitJournal, err)
		}
	} else if err != nil {
		return nil, nil, fail(exitJournal, err)
	}
	if torn != nil {
		k.w.msg.say("%v", torn)
	}
	past, err := session.Load(recs)
	if err != nil {
		j.Close()
		return nil, nil, fail(exitJournal, err)
	}
	return j, past, nil
}

// goOn reads the plan as it was when the run was opened.
func (k *cook) goOn(past []run.Event) (*plan.Plan, error) {
	was, err := copyIn(past)
	if err != nil {
		return nil, fail(exitJournal, err)
	}
	p, err := fromCopy(k.w, was)
	if err != nil {
		return nil, fail(exitJournal, err)
	}
	k.w.msg.say("going on with %s, table %s", titleOf(p), hour(p.Table))
	if was.Source != string(k.src.text) {
		k.w.msg.say("%s has changed since this dinner was opened: going on with the plan as it was then", k.src.name)
	}
	return p, nil
}

// farewell is the last thing said: how to go on.
func (k *cook) farewell(s *run.State) {
	for _, c := range s.Courses {
		if c.Served.IsZero() {
			k.w.msg.say("the dinner is in the journal as it stands; to go on: %s", k.command())
			return
		}
	}
	k.w.msg.say("every course is served")
}

// command is how the cook starts this dinner again.
func (k *cook) command() string {
	if k.src.path == "" {
		return program + " cook"
	}
	return program + " cook " + shellWord(k.src.name)
}

// locked turns an error of taking the lock into words and a code.
func locked(err error) error {
	var l *journal.LockedError
	if !errors.As(err, &l) {
		return fail(exitJournal, err)
	}
	who := "another kettledrum"
	if l.PID != 0 {
		who = fmt.Sprintf("process %d, since %s", l.PID, hour(l.Since.Local()))
	}
	return fail(exitLocked, fmt.Errorf("%w, by %s", journal.ErrLocked, who),
		"quit it there first: a dinner has one conductor")
}
