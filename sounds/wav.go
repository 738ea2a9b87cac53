package sounds

import "encoding/binary"

// LittleEndian returns samples as bytes, the lower one of each first: as WAV files
// and sound servers take them.
func LittleEndian(pcm []int16) []byte {
	out := make([]byte, 0, 2*len(pcm))
	for _, v := range pcm {
		out = binary.LittleEndian.AppendUint16(out, uint16(v))
	}
	return out
}

// WAV returns samples as a WAV file: one channel, 16 bits, Rate. Source: Microsoft
// and IBM, Multimedia Programming Interface and Data Specifications 1.0, 1991,
// from memory.
func WAV(pcm []int16) []byte {
	const header, channels, width = 44, 1, 2
	data := LittleEndian(pcm)
	le := binary.LittleEndian
	out := make([]byte, 0, header+len(data))
	out = append(out, "RIFF"...)
	out = le.AppendUint32(out, uint32(header-8+len(data)))
	out = append(out, "WAVEfmt "...)
	out = le.AppendUint32(out, 16) // bytes of this part
	out = le.AppendUint16(out, 1)  // plain samples
	out = le.AppendUint16(out, channels)
	out = le.AppendUint32(out, Rate)
	out = le.AppendUint32(out, Rate*channels*width)
	out = le.AppendUint16(out, channels*width)
	out = le.AppendUint16(out, 8*width)
	out = append(out, "data"...)
	out = le.AppendUint32(out, uint32(len(data)))
	return append(out, data...)
}
