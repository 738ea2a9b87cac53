package main

import (
	"context"
	"io"
	"os/exec"
	"time"
)

// A laptop that falls asleep loses no time and no entry, but it neither rings nor
// shows anything. So cook asks the system to stay awake where it can, and says what
// to do where it cannot.

// inhibitor is a program that keeps the machine awake while another one runs, which
// it is given as its last arguments.
type inhibitor struct {
	program string
	args    []string
}

// answerWithin is how long a program that keeps the machine awake may take to say
// that it does.
const answerWithin = 5 * time.Second

// hold keeps the machine awake until release is called or this process ends,
// however it ends: the program's child reads from a pipe that then closes.
// ok is false where it cannot be kept awake.
func (h inhibitor) hold(ctx context.Context) (release func(), ok bool) {
	nothing := func() {}
	path, err := exec.LookPath(h.program)
	if err != nil {
		return nothing, false
	}
	cmd := exec.Command(path, append(append([]string(nil), h.args...), "cat")...)
	in, err := cmd.StdinPipe()
	if err != nil {
		return nothing, false
	}
	out, err := cmd.StdoutPipe()
	if err != nil || cmd.Start() != nil {
		return nothing, false
	}
	release = func() {
		_ = in.Close()
		_ = cmd.Wait()
	}
	// What comes back through the child says that it runs, and so that the machine
	// is kept awake.
	answered := make(chan bool, 1)
	go func() {
		_, err := io.ReadFull(out, make([]byte, 1))
		answered <- err == nil
	}()
	_, _ = in.Write([]byte{'\n'})
	wait := time.NewTimer(answerWithin)
	defer wait.Stop()
	select {
	case ok = <-answered:
	case <-wait.C:
	case <-ctx.Done():
	}
	if !ok {
		_ = cmd.Process.Kill()
		release()
		return nothing, false
	}
	return release, true
}
