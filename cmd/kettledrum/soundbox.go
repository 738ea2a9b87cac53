package main

import (
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"

	"github.com/spf13/cobra"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/sounds/speaker"
	"example.org/kettledrum/tui"
)

// hearing is how cues are heard, as the flags of the commands that ring ask.
type hearing struct {
	volume int // in percent
	mute   bool
}

// flags adds those flags to a command.
func (h *hearing) flags(c *cobra.Command) {
	c.Flags().IntVar(&h.volume, "volume", sounds.DefaultVolume, "how loud cues ring, in percent; 50 sounds half as loud as 100")
	c.Flags().BoolVar(&h.mute, "mute", false, "ring nothing, not even the terminal's bell")
}

// check refuses a volume that is none.
func (h *hearing) check() error {
	if h.volume < 1 || h.volume > sounds.FullVolume {
		return fail(exitUse, fmt.Errorf("--volume %d is out of range", h.volume), "from 1 to 100; --mute rings nothing")
	}
	return nil
}

// logName is the log in a run's folder. It is there only if there was something to
// write.
const logName = "kettledrum.log"

// soundbox is what rings while a run is shown: the loudspeaker and the terminal's
// bell.
type soundbox struct {
	speaker *speaker.Speaker
	bell    *speaker.Bell // nil: there is no terminal
	volume  atomic.Int64
	log     *lateFile
}

// openSounds gives the screen what rings. dir is the folder for the log, empty for
// none; bell is the terminal, nil where there is none. Close what it returns: nil
// where nothing is to ring.
func (h hearing) openSounds(o *tui.Options, dir string, bell io.Writer) *soundbox {
	o.Sound.Volume, o.Sound.Muted = h.volume, h.mute
	if h.mute {
		return nil
	}
	b := &soundbox{}
	b.volume.Store(int64(h.volume))
	log := slog.New(slog.DiscardHandler)
	if dir != "" {
		b.log = &lateFile{path: filepath.Join(dir, logName)}
		log = slog.New(slog.NewTextHandler(b.log, nil))
	}
	b.speaker = speaker.New(sounds.Render(), speaker.Ways(), log)
	if bell != nil {
		b.bell = speaker.NewBell(bell)
	}
	o.Ring = b.ring
	o.SetVolume = func(percent int) { b.volume.Store(int64(percent)) }
	o.Soundless = func() bool { return b.speaker.Trouble() != nil }
	return b
}

func (b *soundbox) ring(class run.Class, louder int) {
	s := sounds.Sound{Class: class, Rise: louder, Volume: int(b.volume.Load())}
	if b.bell != nil {
		b.bell.Ring(s)
	}
	b.speaker.Ring(s)
}

// close ends all sounds and tells, now that the screen is gone, what was wrong.
func (b *soundbox) close(msg messages) {
	if b == nil {
		return
	}
	trouble := b.speaker.Trouble()
	b.speaker.Close()
	switch {
	case trouble == nil:
	case b.bell != nil:
		msg.say("no sound could be played, only the terminal's bell: %v", trouble)
	default:
		msg.say("no sound could be played: %v", trouble)
	}
	if path := b.log.written(); path != "" {
		msg.say("what the sounds had to say is in %s", path)
	}
}

// lateFile is a file that comes to be with the first thing that is written to it.
type lateFile struct {
	path string
	mu   sync.Mutex
	used bool
}

// Write appends to the file. It is opened each time: that is a few times an evening.
func (l *lateFile) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	f, err := os.OpenFile(l.path, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o600)
	if err != nil {
		return 0, err
	}
	defer f.Close()
	l.used = true
	return f.Write(p)
}

// written is the file's path if anything was written to it.
func (l *lateFile) written() string {
	if l == nil {
		return ""
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	if !l.used {
		return ""
	}
	return l.path
}
