package journal

import (
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"strconv"
)

// Record is one payload and its number.
type Record struct {
	Seq     uint64 // from 1
	Payload []byte // one JSON value on one line
}

// ErrPayload is returned for a payload that is not one JSON value on one line.
var ErrPayload = errors.New("payload is not one JSON value on one line")

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

const (
	beforeSeq  = `{"n":`
	beforeCRC  = `,"crc":"`
	beforeData = `","data":`
	crcDigits  = 8
)

func checksum(seq uint64, payload []byte) [4]byte {
	var n [8]byte
	binary.BigEndian.PutUint64(n[:], seq)
	c := crc32.Update(crc32.Checksum(n[:], castagnoli), castagnoli, payload)
	return [4]byte(binary.BigEndian.AppendUint32(nil, c))
}

func checkPayload(p []byte) error {
	if bytes.ContainsAny(p, "\r\n") || !json.Valid(p) {
		return fmt.Errorf("%w: %.60q", ErrPayload, p)
	}
	return nil
}

// appendLine appends the line of r, with its newline.
func appendLine(b []byte, r Record) []byte {
	sum := checksum(r.Seq, r.Payload)
	b = append(b, beforeSeq...)
	b = strconv.AppendUint(b, r.Seq, 10)
	b = append(b, beforeCRC...)
	b = hex.AppendEncode(b, sum[:])
	b = append(b, beforeData...)
	b = append(b, r.Payload...)
	return append(b, '}', '\n')
}

// parseLine reads a line without its newline. The error says what is wrong with
// it. The payload shares memory with line.
func parseLine(line []byte) (Record, error) {
	rest, ok := bytes.CutPrefix(line, []byte(beforeSeq))
	digits, rest, ok2 := bytes.Cut(rest, []byte(beforeCRC))
	if !ok || !ok2 {
		return Record{}, errors.New("it is no record")
	}
	seq, err := strconv.ParseUint(string(digits), 10, 64)
	if err != nil || strconv.FormatUint(seq, 10) != string(digits) {
		return Record{}, errors.New("its number is no number")
	}
	if len(rest) < crcDigits {
		return Record{}, errors.New("it ends in its checksum")
	}
	sum, rest := rest[:crcDigits], rest[crcDigits:]
	rest, ok = bytes.CutPrefix(rest, []byte(beforeData))
	payload, ok2 := bytes.CutSuffix(rest, []byte("}"))
	if !ok || !ok2 {
		return Record{}, errors.New("it has no data")
	}
	want := checksum(seq, payload)
	if hex.EncodeToString(want[:]) != string(sum) {
		return Record{}, errors.New("its checksum does not match")
	}
	return Record{Seq: seq, Payload: payload}, nil
}
