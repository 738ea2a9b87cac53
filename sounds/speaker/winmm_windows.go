package speaker

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"sync"
	"syscall"
	"time"
	"unsafe"

	"example.org/kettledrum/sounds"
)

// Of winmm.dll.
var (
	winmm     = syscall.NewLazyDLL("winmm.dll")
	playSound = winmm.NewProc("PlaySoundW")
	devices   = winmm.NewProc("waveOutGetNumDevs")
)

// Flags of PlaySoundW. Source: mmsystem.h of the Windows SDK, from memory.
const (
	sndAsync     = 0x0001 // return at once
	sndNoDefault = 0x0002 // no other sound where this one cannot be played
	sndMemory    = 0x0004 // the name is the address of a WAV file in memory
)

// WinMM plays by the multimedia library of Windows.
type WinMM struct{}

// Name implements Way.
func (WinMM) Name() string { return "winmm" }

// one keeps two sounds apart: the library plays one at a time.
var one sync.Mutex

// Play implements Way.
func (WinMM) Play(ctx context.Context, pcm []int16) error {
	if err := errors.Join(playSound.Find(), devices.Find()); err != nil {
		return fmt.Errorf("%w: %w", ErrAbsent, err)
	}
	// Asked to play at once, the library says nothing of a device that is missing.
	if n, _, _ := devices.Call(); n == 0 {
		return fmt.Errorf("no device: %w", ErrAbsent)
	}
	one.Lock()
	defer one.Unlock()
	wav := sounds.WAV(pcm)
	// The library reads the memory until the sound is over, or stopped.
	var pin runtime.Pinner
	pin.Pin(&wav[0])
	defer pin.Unpin()
	ok, _, _ := playSound.Call(uintptr(unsafe.Pointer(&wav[0])), 0, sndAsync|sndMemory|sndNoDefault)
	if ok == 0 {
		return errors.New("no device can play it")
	}
	defer playSound.Call(0, 0, 0)
	heard := time.NewTimer(sounds.Length(pcm) + winDelay)
	defer heard.Stop()
	select {
	case <-heard.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// winDelay is by how much the library is late: 31 to 72 ms were measured, under an
// emulation of Windows.
const winDelay = 200 * time.Millisecond
