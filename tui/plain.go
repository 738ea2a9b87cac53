package tui

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// RunPlain shows the run as lines of text instead of a screen, for screen readers,
// logs and pipes: each cue as it comes up, and what the cook did. It is the same
// model and the same keys; a key is typed as a line, Enter alone is the space bar.
// When the input ends, it goes on without.
//
// Errors: of the output. That ctx ended is no error.
func RunPlain(ctx context.Context, o Options) (Result, error) {
	if o.Theme == nil {
		o.Theme = theme.Bare(o.ASCII || !theme.UTF8(os.Getenv))
	}
	o = o.withDefaults()
	p := &plainShell{opt: o, m: NewModel(Setup{
		State: o.Conductor.State(), Theme: o.Theme, Rehearsal: o.Rehearsal != nil, Resume: o.ResumeHint,
		Following: o.Watch != nil, Plain: true, Sound: o.Sound, Through: o.Through,
	}), beside: make(chan Msg, 1)}
	ctx, stop := context.WithCancel(ctx) // ends what goes on beside
	defer stop()
	p.ctx = ctx
	lines := readLines(ctx, o.In)
	every := heartbeat
	if o.Watch != nil {
		every = watchEvery
	}
	if o.Rehearsal != nil {
		every = fastHeartbeat
	}
	beat := time.NewTicker(every)
	defer beat.Stop()
	p.send(p.beat())
	if o.Hint != nil {
		go func() {
			if text := o.Hint(); text != "" {
				select {
				case p.beside <- HintMsg{Instants: p.instants(), Text: text}:
				case <-ctx.Done():
				}
			}
		}()
	}
	drifted := false
	for !p.quit && p.err == nil {
		select {
		case <-ctx.Done():
			return Result{State: o.Conductor.State()}, nil
		case line, open := <-lines:
			if !open {
				lines = nil // a channel that never answers
				p.m.hold = false
				continue
			}
			p.typed(line)
		case msg := <-p.beside:
			p.send(msg)
		case <-beat.C:
			p.look()
			p.send(p.beat())
		}
		if lines == nil && !drifted && p.m.drifted(run.UnconfirmedAfter) {
			drifted = true
			p.typed("a") // of a rehearsal that nobody answers all goes as planned
		}
		if lines == nil && p.m.moment.Finished && (!p.m.rehearsing || p.m.debrief.final) {
			break // nobody can say anything any more
		}
	}
	if p.giveUp != nil {
		p.giveUp()
	}
	return Result{State: o.Conductor.State()}, p.err
}

// readLines sends what is read, line by line, until the input ends.
func readLines(ctx context.Context, in io.Reader) <-chan string {
	out := make(chan string)
	go func() { // ends with the input, or with the program
		defer close(out)
		lines := bufio.NewScanner(in)
		for lines.Scan() {
			select {
			case out <- lines.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return out
}

// plainShell does what shell does for the screen.
type plainShell struct {
	opt    Options
	m      Model
	told   teller
	quit   bool
	more   bool // of the line that is being taken there is more to come
	err    error
	beside chan Msg
	ctx    context.Context // ends what goes on beside
	giveUp context.CancelFunc
}

func (p *plainShell) instants() Instants {
	return Instants{At: p.opt.Clock.Now(), Real: p.opt.Real.Now()}
}

func (p *plainShell) beat() BeatMsg {
	b := BeatMsg{Instants: p.instants(), Speed: 1, Soundless: p.opt.Soundless()}
	if r := p.opt.Rehearsal; r != nil {
		b.Speed, b.Paused, b.News = r.Speed(), r.Paused(), p.opt.News()
	}
	return b
}

// look brings what another program wrote.
func (p *plainShell) look() {
	if p.opt.Watch == nil {
		return
	}
	if state, err := p.opt.Watch(); state != nil || err != nil {
		p.send(FollowedMsg{Instants: p.instants(), State: state, Err: err})
	}
}

// send gives the model a message, does what comes of it, and tells what is new.
func (p *plainShell) send(msg Msg) {
	var effects []Effect
	p.m, effects = Update(p.m, msg)
	if !p.more {
		p.tell()
	}
	for _, e := range effects {
		p.do(e)
	}
}

// tell prints what is new.
func (p *plainShell) tell() {
	for _, s := range p.told.news(&p.m) {
		if _, err := fmt.Fprintln(p.opt.Out, s); err != nil && p.err == nil {
			p.err = err
		}
	}
}

func (p *plainShell) do(e Effect) {
	r := p.opt.Rehearsal
	record := func(state *run.State, err error, said string) {
		p.send(RecordedMsg{Instants: p.instants(), State: state, Err: err, Said: said})
	}
	switch e := e.(type) {
	case Record:
		state, err := p.opt.Conductor.Record(e.Events...)
		record(state, err, e.Said)
	case TakeRemedy:
		state, err := p.opt.Remedies.Take(e.Remedy)
		record(state, err, e.Said)
	case Tick:
		state, err := p.opt.Conductor.Tick()
		p.send(TickedMsg{Instants: p.instants(), State: state, Err: err})
	case SeekRemedies:
		p.seek()
	case SeekDebrief:
		go func() {
			select {
			case p.beside <- p.opt.lookBack(p.ctx, e):
			case <-p.ctx.Done():
			}
		}()
	case SetVolume:
		p.opt.SetVolume(e.Percent)
	case Ring:
		p.opt.Ring(e.Class, e.Louder)
	case Quit:
		p.quit = true
	default:
		turn(r, e)
	}
}

// seek looks for ways out beside the lines.
func (p *plainShell) seek() {
	if p.opt.Remedies == nil || !p.opt.Remedies.NeedsRemedy() {
		p.send(RemediesMsg{After: len(p.m.state.Events)})
		return
	}
	if p.giveUp != nil {
		p.giveUp()
	}
	wanted, stop := context.WithCancel(context.Background())
	p.giveUp = stop
	after := len(p.m.state.Events)
	go func() {
		defer stop()
		ctx, done := context.WithTimeout(wanted, seekFor)
		defer done()
		if found := p.opt.Remedies.Remedies(ctx); wanted.Err() == nil {
			select {
			case p.beside <- RemediesMsg{Found: found, After: after}:
			case <-wanted.Done():
			}
		}
	}()
}

// typed takes a line: a key, and after it what the key asks for, "t tea 4"; while
// something is asked, the answer.
func (p *plainShell) typed(line string) {
	keys := keysOf(line, p.m.mode)
	for i, msg := range keys {
		if p.quit {
			return
		}
		msg.Instants = p.instants()
		p.more = i+1 < len(keys) // what is asked is answered already
		p.send(msg)
	}
	if p.m.mode != Main && p.m.typing() == nil && p.m.mode != Confirm && p.m.mode != Choices {
		// A view is told once, and left.
		p.m.under, p.m.mode = nil, Main
	}
}
