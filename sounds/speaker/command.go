package speaker

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"time"

	"example.org/kettledrum/sounds"
)

// slow is how much longer than its sound a player of the system may take.
const slow = 2 * time.Second

// Command plays by a program of the system, which is given the name of a WAV file
// and no terminal.
type Command struct {
	Program string
	Args    []string // before the name of the file
}

// Name implements Way.
func (c Command) Name() string { return c.Program }

// Play implements Way.
func (c Command) Play(ctx context.Context, pcm []int16) error {
	path, err := exec.LookPath(c.Program)
	if err != nil {
		return ErrAbsent
	}
	file, err := temporary(sounds.WAV(pcm))
	if err != nil {
		return err
	}
	defer os.Remove(file)
	limited, cancel := context.WithTimeout(ctx, sounds.Length(pcm)+slow)
	defer cancel()
	cmd := exec.CommandContext(limited, path, append(append([]string(nil), c.Args...), file)...)
	cmd.WaitDelay = slow // no input and no output: nothing reaches the terminal
	err = cmd.Run()
	var code *exec.ExitError
	switch {
	case err == nil, ctx.Err() != nil:
		return ctx.Err()
	case limited.Err() != nil:
		return ErrHangs
	case errors.As(err, &code):
		return fmt.Errorf("ended with code %d", code.ExitCode())
	}
	return err
}

// temporary writes a file that only this user can read and returns its name.
func temporary(data []byte) (string, error) {
	f, err := os.CreateTemp("", "kettledrum-*.wav")
	if err != nil {
		return "", err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(f.Name())
		return "", err
	}
	return f.Name(), nil
}
