package speaker

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"sync"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
)

// Speaker plays sounds beside the screen, one at a time. Nobody waits for it: Ring
// returns at once, whatever the system does.
type Speaker struct {
	ways []Way
	log  *slog.Logger
	bank *sounds.Bank

	news chan struct{} // something in next; holds one
	stop context.CancelFunc
	done chan struct{} // closed when the worker has ended

	mu      sync.Mutex
	next    []sounds.Sound     // wait to be played, the most urgent first, one of a class
	playing *sounds.Sound      // is being played …
	cut     context.CancelFunc // … until this
	trouble error              // why the last sound was not heard; nil: it was
}

// New returns a Speaker that tries the ways in their order, and logs what fails, and
// that it works again, once each. Close it.
func New(bank *sounds.Bank, ways []Way, log *slog.Logger) *Speaker {
	ctx, stop := context.WithCancel(context.Background())
	s := &Speaker{ways: ways, log: log, bank: bank, news: make(chan struct{}, 1), stop: stop, done: make(chan struct{})}
	go s.work(ctx)
	return s
}

// Ring has a sound played and returns at once. A sound cuts off one that is less
// urgent; one that is not more urgent than what sounds already waits for its end. Of
// several that wait the most urgent is played first. None is dropped, for whoever
// rings counts on it to be heard, but for one of the same class: the newer is played.
func (s *Speaker) Ring(x sounds.Sound) {
	if x.Volume <= 0 {
		return
	}
	s.mu.Lock()
	if k, found := slices.BinarySearchFunc(s.next, x.Class, func(y sounds.Sound, c run.Class) int { return cmp.Compare(y.Class, c) }); found {
		s.next[k] = x
	} else {
		s.next = slices.Insert(s.next, k, x)
	}
	if s.playing != nil && x.Class < s.playing.Class {
		s.cut()
	}
	s.mu.Unlock()
	select {
	case s.news <- struct{}{}:
	default: // told already
	}
}

// Trouble returns why the last sound was not heard, nil where it was, or where
// there was none.
func (s *Speaker) Trouble() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.trouble
}

// Close cuts off what sounds and waits until nothing of the Speaker is left.
func (s *Speaker) Close() {
	s.stop()
	<-s.done
}

// work plays what comes, until ctx ends.
func (s *Speaker) work(ctx context.Context) {
	defer close(s.done)
	for {
		select {
		case <-ctx.Done():
			return
		case <-s.news:
		}
		for s.playNext(ctx) {
		}
	}
}

// playNext plays what waits, and reports whether anything did.
func (s *Speaker) playNext(ctx context.Context) bool {
	s.mu.Lock()
	if len(s.next) == 0 || ctx.Err() != nil {
		s.mu.Unlock()
		return false
	}
	x := s.next[0]
	ctx, cut := context.WithCancel(ctx)
	defer cut()
	s.next, s.playing, s.cut = slices.Delete(s.next, 0, 1), &x, cut
	s.mu.Unlock()

	by, err := s.attempt(ctx, x)

	s.mu.Lock()
	defer s.mu.Unlock()
	s.playing = nil
	if ctx.Err() == nil { // else it was cut off: nothing is known
		s.note(by, err)
	}
	return true
}

// note logs what has changed: that there is no sound, or another reason for it, or
// that there is sound again.
func (s *Speaker) note(by string, err error) {
	switch {
	case err != nil && (s.trouble == nil || s.trouble.Error() != err.Error()):
		s.log.Warn("no sound", "why", err.Error())
	case err == nil && s.trouble != nil:
		s.log.Info("sound works again", "by", by)
	}
	s.trouble = err
}

// attempt plays a sound by the first way that can.
func (s *Speaker) attempt(ctx context.Context, x sounds.Sound) (by string, err error) {
	pcm := s.bank.PCM(x)
	if len(pcm) == 0 {
		return "", nil
	}
	return Play(ctx, s.ways, pcm)
}

// Play plays samples by the first way that can, waits until they are heard, and
// returns the way's name.
//
// Errors: why each way could not, in one; ErrAbsent where there is no way; that of
// ctx.
func Play(ctx context.Context, ways []Way, pcm []int16) (by string, err error) {
	var failed []string
	var all error
	for _, w := range ways {
		err := playBy(ctx, w, pcm)
		if err == nil {
			return w.Name(), nil
		}
		if ctx.Err() != nil {
			return "", ctx.Err()
		}
		all = errors.Join(all, err)
		failed = append(failed, w.Name()+": "+err.Error())
	}
	if len(failed) == 0 {
		return "", fmt.Errorf("no way to a loudspeaker: %w", ErrAbsent)
	}
	return "", &noneError{strings.Join(failed, "; "), all}
}

// noneError says in one line why no way worked.
type noneError struct {
	text string
	all  error
}

// Error implements error.
func (e *noneError) Error() string { return e.text }

// Unwrap returns the errors of all ways.
func (e *noneError) Unwrap() error { return e.all }

// playBy makes a panic of a way an error: it must not end the dinner.
func playBy(ctx context.Context, w Way, pcm []int16) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("a bug: %v", r)
		}
	}()
	return w.Play(ctx, pcm)
}
