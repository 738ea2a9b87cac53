package speaker

import (
	"encoding/binary"
	"errors"
)

// The values of a message of PulseAudio's protocol, each behind a letter that says
// its type. Source: the protocol as PulseAudio 16 and PipeWire 0.3 speak it, for
// which there is no standard.
type message struct{ b []byte }

func (m *message) u32(v uint32) *message {
	m.b = binary.BigEndian.AppendUint32(append(m.b, 'L'), v)
	return m
}

func (m *message) flag(v bool) *message {
	c := byte('0')
	if v {
		c = '1'
	}
	m.b = append(m.b, c)
	return m
}

// flags writes n that are off.
func (m *message) flags(n int) *message {
	for range n {
		m.flag(false)
	}
	return m
}

// text writes a text; the empty one stands for none.
func (m *message) text(s string) *message {
	if s == "" {
		m.b = append(m.b, 'N')
		return m
	}
	m.b = append(append(append(m.b, 't'), s...), 0)
	return m
}

func (m *message) blob(b []byte) *message {
	m.b = append(binary.BigEndian.AppendUint32(append(m.b, 'x'), uint32(len(b))), b...)
	return m
}

// sampleSpec is 16-bit little endian samples in one channel.
func (m *message) sampleSpec(rate uint32) *message {
	const s16le, channels = 3, 1
	m.b = binary.BigEndian.AppendUint32(append(m.b, 'a', s16le, channels), rate)
	return m
}

// mono maps the one channel.
func (m *message) mono() *message {
	m.b = append(m.b, 'm', 1, 0)
	return m
}

// fullVolume of the one channel: the samples have their volume in them.
func (m *message) fullVolume() *message {
	m.b = binary.BigEndian.AppendUint32(append(m.b, 'v', 1), 0x10000)
	return m
}

// properties writes pairs of a name and a value.
func (m *message) properties(pairs ...string) *message {
	m.b = append(m.b, 'P')
	for i := 0; i+1 < len(pairs); i += 2 {
		value := append([]byte(pairs[i+1]), 0)
		m.text(pairs[i]).u32(uint32(len(value))).blob(value)
	}
	m.b = append(m.b, 'N')
	return m
}

// errShape is returned for a message that is not as the protocol has it.
var errShape = errors.New("an answer that is none of its protocol")

// takeU32 reads a number off the front.
func (m *message) takeU32() (uint32, error) {
	if len(m.b) < 5 || m.b[0] != 'L' {
		return 0, errShape
	}
	v := binary.BigEndian.Uint32(m.b[1:])
	m.b = m.b[5:]
	return v, nil
}
