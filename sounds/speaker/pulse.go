package speaker

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"time"

	"example.org/kettledrum/sounds"
)

// Deadlines of a sound server, of real time.
const (
	// answers is how long it may take to answer a request: it takes a millisecond.
	answers = time.Second
	// drains is how much longer than the sound it may take to have played it.
	drains = 2 * time.Second
)

// Pulse plays by a PulseAudio or PipeWire server: one connection for each sound.
type Pulse struct {
	// Env reads the environment; nil for that of the process.
	Env func(string) string
}

// Name implements Way.
func (Pulse) Name() string { return "sound server" }

// Of the protocol. Version 13 has all that is needed, and every server of today
// still speaks it.
const (
	pulseVersion = 13
	noIndex      = 0xFFFFFFFF // no index, no preference, and the channel of commands

	opError  = 0
	opReply  = 2
	opCreate = 3
	opAuth   = 8
	opName   = 9
	opDrain  = 12
	opKilled = 64

	// frameMost is the longest message from the server that is believed.
	frameMost = 1 << 20
	// chunk is in how many bytes the samples are sent.
	chunk = 1 << 15
)

// Play implements Way.
func (p Pulse) Play(ctx context.Context, pcm []int16) error {
	env := p.Env
	if env == nil {
		env = os.Getenv
	}
	host, _ := os.Hostname()
	where := addresses(env, host)
	err := fmt.Errorf("no server is named: %w", ErrAbsent)
	for _, a := range where {
		if err = playAt(ctx, a, cookie(env), pcm); err == nil || ctx.Err() != nil {
			return err
		}
	}
	return err
}

func playAt(ctx context.Context, a address, secret []byte, pcm []int16) error {
	d := net.Dialer{Timeout: answers}
	conn, err := d.DialContext(ctx, a.network, a.addr)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrAbsent, err)
	}
	defer conn.Close()
	cut := context.AfterFunc(ctx, func() { conn.Close() }) // ends every read and write
	defer cut()
	c := client{conn: conn}
	if err := c.play(secret, pcm); err != nil {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		return fmt.Errorf("%s: %w", a.addr, err)
	}
	return nil
}

// client is one connection to a server. It has no goroutine: it asks and waits for
// the answer.
type client struct {
	conn net.Conn
	tag  uint32
}

// play plays one sound from the first word to the last sample.
func (c *client) play(secret []byte, pcm []int16) error {
	soon := time.Now().Add(answers)
	if _, err := c.ask(soon, opAuth, new(message).u32(pulseVersion).blob(secret)); err != nil {
		return err
	}
	name := new(message).properties("application.name", "Kettledrum", "application.process.binary", "kettledrum")
	if _, err := c.ask(soon, opName, name); err != nil {
		return err
	}
	reply, err := c.ask(soon, opCreate, stream())
	if err != nil {
		return err
	}
	index, err := reply.takeU32()
	if err != nil {
		return err
	}
	data := sounds.LittleEndian(pcm)
	for from := 0; from < len(data); from += chunk {
		if err := c.send(soon, index, data[from:min(from+chunk, len(data))]); err != nil {
			return err
		}
	}
	_, err = c.ask(time.Now().Add(sounds.Length(pcm)+drains), opDrain, new(message).u32(index))
	return err
}

// stream asks for a stream that begins to sound as soon as it has some samples.
func stream() *message {
	const bytesAMillisecond = 2 * sounds.Rate / 1000
	m := new(message).sampleSpec(sounds.Rate).mono()
	m.u32(noIndex).text("")       // any sink
	m.u32(noIndex).flag(false)    // longest buffer; not held
	m.u32(50 * bytesAMillisecond) // aim of the buffer
	m.u32(10 * bytesAMillisecond) // needed before it sounds
	m.u32(noIndex)                // least request
	m.u32(0).fullVolume()         // synchronous with no other stream
	m.flags(7)                    // remixing and the like: as the server does it
	m.flag(false)                 // not muted
	m.flag(true)                  // the aim counts for the device as well
	m.properties("media.name", "Cue", "media.role", "event")
	return m
}

// ask sends a command and waits for its answer. What the server tells meanwhile is
// passed over, but that the stream was killed.
func (c *client) ask(by time.Time, op uint32, args *message) (*message, error) {
	c.tag++
	m := new(message).u32(op).u32(c.tag)
	if err := c.send(by, noIndex, append(m.b, args.b...)); err != nil {
		return nil, err
	}
	for {
		m, err := c.receive()
		if err != nil {
			return nil, err
		}
		op, err := m.takeU32()
		if err != nil {
			return nil, err
		}
		tag, err := m.takeU32()
		if err != nil {
			return nil, err
		}
		switch {
		case op == opKilled:
			return nil, fmt.Errorf("the device %w", ErrGone)
		case op == opError && tag == c.tag:
			code, _ := m.takeU32()
			return nil, refusal(code)
		case op == opReply && tag == c.tag:
			return m, nil
		}
	}
}

// frameHeader is the bytes before each message: length, channel, offset, flags.
const frameHeader = 20

// send sends one message, or samples, on a channel.
func (c *client) send(by time.Time, channel uint32, body []byte) error {
	if err := c.conn.SetDeadline(by); err != nil {
		return broken(err)
	}
	frame := make([]byte, frameHeader, frameHeader+len(body))
	binary.BigEndian.PutUint32(frame, uint32(len(body)))
	binary.BigEndian.PutUint32(frame[4:], channel)
	_, err := c.conn.Write(append(frame, body...))
	return broken(err)
}

// receive waits for the next command of the server.
func (c *client) receive() (*message, error) {
	for {
		var header [frameHeader]byte
		if _, err := io.ReadFull(c.conn, header[:]); err != nil {
			return nil, broken(err)
		}
		length := binary.BigEndian.Uint32(header[:])
		if length > frameMost {
			return nil, errShape
		}
		body := make([]byte, length)
		if _, err := io.ReadFull(c.conn, body); err != nil {
			return nil, broken(err)
		}
		if binary.BigEndian.Uint32(header[4:]) == noIndex {
			return &message{body}, nil
		}
	}
}

// broken says what an error of the connection means.
func broken(err error) error {
	switch {
	case err == nil:
		return nil
	case errors.Is(err, os.ErrDeadlineExceeded):
		return ErrHangs
	}
	return fmt.Errorf("the server %w: %w", ErrGone, err)
}

// refusal is an error that the server answers, in words where they help. Source:
// the error codes of PulseAudio 16.
func refusal(code uint32) error {
	switch code {
	case 1:
		return errors.New("the server refuses: access denied")
	case 5:
		return fmt.Errorf("no device: %w", ErrAbsent)
	case 12:
		return fmt.Errorf("the device %w", ErrGone)
	}
	return fmt.Errorf("the server refuses with code %d", code)
}
