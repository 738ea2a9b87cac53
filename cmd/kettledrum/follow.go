package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/journal"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// followCommand is a second screen on a run under way.
func followCommand(w *world) *cobra.Command {
	var look appearance
	var hear hearing
	c := &cobra.Command{
		Use:   "follow [FILE]",
		Short: "Show a dinner that is being cooked, on a second screen that changes nothing",
		Args:  oneFile,
		RunE:  func(c *cobra.Command, args []string) error { return follow(c.Context(), w, look, hear, args) },
	}
	look.flags(c)
	hear.flags(c)
	return c
}

// follow shows the run of the plan file that args name, without one the run under
// way that is nearest.
func follow(ctx context.Context, w *world, look appearance, hear hearing, args []string) error {
	if err := look.canShow(w, "follow"); err != nil {
		return err
	}
	if err := hear.check(); err != nil {
		return err
	}
	key := ""
	if len(args) > 0 {
		src, err := readSource(args)
		if err != nil {
			return err
		}
		key = src.key()
	}
	state, err := journal.StateDir()
	if err != nil {
		return fail(exitJournal, err)
	}
	dir, ok := underWay(state, key, w.clock.Now())
	if !ok {
		return fail(exitUse, errors.New("no dinner is being cooked that could be followed"),
			"kettledrum cook begins one, and kettledrum follow in another terminal shows it there")
	}
	load := newWatcher(dir).load
	events, err := load()
	if err != nil {
		return fail(exitJournal, err)
	}
	was, err := copyIn(events)
	if err != nil {
		return fail(exitJournal, err)
	}
	p, err := fromCopy(w, was)
	if err != nil {
		return fail(exitJournal, err)
	}
	first := events // newWatcher tells of it only once
	f, err := session.Follow(p, func() ([]run.Event, error) {
		if first != nil {
			out := first
			first = nil
			return out, nil
		}
		return load()
	})
	if err != nil {
		return fail(exitJournal, err)
	}
	w.msg.say("following %s, table %s; nothing can be told here", titleOf(p), hour(p.Table))
	return w.show(ctx, look, live{conductor: f, clock: w.clock, watch: f.Watch, hear: hear})
}

// watcher reads a journal again when it has changed.
type watcher struct {
	dir  string
	size int64
	when time.Time
}

func newWatcher(dir string) *watcher { return &watcher{dir: dir, size: -1} }

// load returns the events of the journal, nil where it is as it was.
func (x *watcher) load() ([]run.Event, error) {
	info, err := os.Stat(filepath.Join(x.dir, journal.FileName))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errors.New("the journal that is followed is gone")
	} else if err != nil {
		return nil, fmt.Errorf("look at the journal: %w", err)
	}
	if info.Size() == x.size && info.ModTime().Equal(x.when) {
		return nil, nil
	}
	// Before reading: what is written meanwhile is seen the next time.
	x.size, x.when = info.Size(), info.ModTime()
	return readRun(x.dir)
}
