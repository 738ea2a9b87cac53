package journal_test

import (
	"bytes"
	"errors"
	"fmt"
	"hash/crc32"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/journal"
)

// TestChecksumIsCRC32C holds the table we use to a published check value:
// CRC-32C of 32 bytes of zeros is 8a9136aa. Source: RFC 3720, appendix B.4
// (printed there in transmission order: aa 36 91 8a).
func TestChecksumIsCRC32C(t *testing.T) {
	t.Parallel()
	if got := crc32.Checksum(make([]byte, 32), crc32.MakeTable(crc32.Castagnoli)); got != 0x8a9136aa {
		t.Errorf("got %08x, want 8a9136aa", got)
	}
}

// line writes a record by the words of the package comment, without the code
// under test.
func line(seq uint64, payload string) string {
	var n [8]byte
	for i := range n {
		n[i] = byte(seq >> (56 - 8*i))
	}
	sum := crc32.Checksum(append(n[:], payload...), crc32.MakeTable(crc32.Castagnoli))
	return fmt.Sprintf("{\"n\":%d,\"crc\":\"%08x\",\"data\":%s}\n", seq, sum, payload)
}

func TestScan(t *testing.T) {
	t.Parallel()
	one, two, three := line(1, `{"a":1}`), line(2, `{"b":2}`), line(3, `"c"`)
	flip := func(s string) string { return strings.Replace(s, `"b"`, `"B"`, 1) }
	tests := []struct {
		name   string
		data   string
		recs   int
		torn   int // its line, 0 for none
		damage int // its line, 0 for none
		reason string
		after  int
	}{
		{name: "empty"},
		{name: "whole", data: one + two + three, recs: 3},
		{name: "no-newline", data: one + strings.TrimSuffix(two, "\n"), recs: 1, torn: 2},
		{name: "half-a-line", data: one + two[:20], recs: 1, torn: 2},
		{name: "first-torn", data: one[:5], torn: 1},
		{name: "last-has-wrong-crc", data: one + flip(two), recs: 1, torn: 2},
		{name: "zeros-at-end", data: one + strings.Repeat("\x00", 40), recs: 1, torn: 2},
		{name: "zeros-then-newline", data: one + strings.Repeat("\x00", 40) + "\n", recs: 1, torn: 2},
		{name: "middle-has-wrong-crc", data: one + flip(two) + three, recs: 1, damage: 2, reason: "its checksum does not match", after: 1},
		{name: "damaged-before-torn", data: one + flip(two) + three[:9], recs: 1, damage: 2, reason: "its checksum does not match", after: 1},
		{name: "first-damaged", data: "x\n" + two + three, damage: 1, reason: "it is no record", after: 2},
		{name: "empty-line", data: one + "\n" + two, recs: 1, damage: 2, reason: "it is no record", after: 1},
		{name: "gap", data: one + three, recs: 1, damage: 2, reason: "its number is 3 and should be 2"},
		{name: "repeat", data: one + one + two, recs: 1, damage: 2, reason: "its number is 1 and should be 2", after: 1},
		{name: "starts-late", data: two, damage: 1, reason: "its number is 2 and should be 1"},
		{name: "leading-zero", data: strings.Replace(one, `:1,`, `:01,`, 1) + two, damage: 1, reason: "its number is no number", after: 1},
		{name: "upper-case-crc", data: strings.Replace(one, one[14:22], strings.ToUpper(one[14:22]), 1) + two, damage: 1, reason: "its checksum does not match", after: 1},
		{name: "cut-in-crc", data: one[:18] + "\n" + two, damage: 1, reason: "it ends in its checksum", after: 1},
		{name: "no-brace", data: strings.Replace(one, "}}", "}", 1) + two, damage: 1, reason: "its checksum does not match", after: 1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			recs, good, torn, err := journal.Scan("j", []byte(tt.data))
			if len(recs) != tt.recs {
				t.Errorf("%d records, want %d", len(recs), tt.recs)
			}
			var end int64
			for i, l := range strings.SplitAfter(tt.data, "\n") {
				if i < tt.recs {
					end += int64(len(l))
				}
			}
			if good != end {
				t.Errorf("good up to byte %d, want %d", good, end)
			}
			if (torn != nil) != (tt.torn > 0) || torn != nil && (torn.Line != tt.torn || torn.Offset != end) {
				t.Errorf("torn %+v, want line %d at %d", torn, tt.torn, end)
			}
			var damage *journal.DamagedError
			if errors.As(err, &damage) != (tt.damage > 0) {
				t.Fatalf("error %v, want damage at line %d", err, tt.damage)
			}
			if damage != nil {
				want := &journal.DamagedError{File: "j", Line: tt.damage, Offset: end, Reason: tt.reason, Good: tt.recs, After: tt.after}
				if d := cmp.Diff(want, damage); d != "" {
					t.Errorf("damage (-want +got):\n%s", d)
				}
			}
		})
	}
}

// FuzzScan: whatever the bytes, a valid prefix comes out, and everything behind
// it is either torn or an error that names the line.
func FuzzScan(f *testing.F) {
	f.Add([]byte(line(1, `{}`) + line(2, `[1]`)))
	f.Add([]byte(line(1, `{}`) + line(2, `[1]`)[:12]))
	f.Add([]byte(line(1, `{}`) + line(3, `[1]`)))
	f.Add([]byte("\n\n{\"n\":"))
	f.Fuzz(func(t *testing.T, data []byte) {
		recs, good, torn, err := journal.Scan("j", data)
		var again bytes.Buffer
		for i, r := range recs {
			if r.Seq != uint64(i)+1 {
				t.Fatalf("record %d has number %d", i+1, r.Seq)
			}
			again.WriteString(line(r.Seq, string(r.Payload)))
		}
		if !bytes.Equal(again.Bytes(), data[:good]) {
			t.Fatalf("the records do not spell the first %d bytes", good)
		}
		var damage *journal.DamagedError
		switch {
		case err != nil:
			if !errors.As(err, &damage) || damage.Line != len(recs)+1 || damage.Offset != good || torn != nil {
				t.Fatalf("after %d good records: error %#v, torn %v", len(recs), err, torn)
			}
		case torn != nil:
			if torn.Line != len(recs)+1 || torn.Offset+int64(torn.Bytes) != int64(len(data)) || bytes.Contains(data[good:len(data)-1], []byte("\n")) {
				t.Fatalf("torn %+v of %d bytes", torn, len(data))
			}
		case good != int64(len(data)):
			t.Fatalf("%d bytes are neither good nor torn nor damaged", int64(len(data))-good)
		}
	})
}
