//go:build unix

package speaker_test

import (
	"context"
	"encoding/binary"
	"io"
	"net"
	"os"
	"path/filepath"
	"testing"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/sounds/speaker"
)

// frame is a message of a server on the channel of commands.
func frame(body []byte) []byte {
	b := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	b = append(b, 0xff, 0xff, 0xff, 0xff)
	return append(append(b, make([]byte, 12)...), body...)
}

// command is the body of a message with numbers only.
func command(numbers ...uint32) []byte {
	var b []byte
	for _, n := range numbers {
		b = binary.BigEndian.AppendUint32(append(b, 'L'), n)
	}
	return b
}

// TestStrangeServers: whatever answers on the socket, playing ends with an error. A
// server that is one is in the test by ear; this is what is none.
func TestStrangeServers(t *testing.T) {
	t.Parallel()
	const reply, refused, killed = 2, 0, 64
	for _, tt := range []struct {
		name string
		says []byte
	}{
		{"nothing", nil},
		{"half-a-header", []byte{0, 0, 0}},
		{"a-web-page", []byte("HTTP/1.1 400 Bad Request\r\nContent-Length: 0\r\nConnection: close\r\n\r\n")},
		{"a-frame-too-long", append([]byte{0x7f, 0xff, 0xff, 0xff}, make([]byte, 16)...)},
		{"an-empty-frame", frame(nil)},
		{"no-number", frame([]byte("txxxxxxxxx"))},
		{"half-a-number", frame([]byte{'L', 0})},
		{"refused", frame(command(refused, 1, 1))},
		{"refused-without-why", frame(command(refused, 1))},
		{"killed", frame(command(killed, 0))},
		{"a-stream-without-a-number", append(append(frame(command(reply, 1)), frame(command(reply, 2))...), frame(command(reply, 3))...)},
		{"samples-and-the-end", append(append([]byte{0, 0, 0, 2, 0, 0, 0, 7}, make([]byte, 12)...), 1, 2)},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			dir, err := os.MkdirTemp("", "s") // a socket's path must be short
			if err != nil {
				t.Fatal(err)
			}
			defer os.RemoveAll(dir)
			socket := filepath.Join(dir, "s")
			l, err := net.Listen("unix", socket)
			if err != nil {
				t.Fatal(err)
			}
			done := make(chan struct{})
			go func() {
				defer close(done)
				conn, err := l.Accept()
				if err != nil {
					return
				}
				defer conn.Close()
				_, _ = conn.Write(tt.says)
				_ = conn.(*net.UnixConn).CloseWrite()
				_, _ = io.Copy(io.Discard, conn) // reads until the player goes
			}()
			p := speaker.Pulse{Env: func(k string) string {
				if k == "PULSE_SERVER" {
					return "unix:" + socket
				}
				return ""
			}}
			if err := p.Play(context.Background(), bank.PCM(loud(run.Note))); err == nil {
				t.Error("it was heard")
			} else {
				t.Log(err)
			}
			l.Close()
			<-done
		})
	}
}
