package journal

import (
	"bytes"
	"fmt"
)

// Torn is a last line that was not written whole: a crash leaves one behind.
// It is a notice, no error.
type Torn struct {
	File   string
	Line   int   // from 1
	Offset int64 // in bytes, where the line starts
	Bytes  int   // how long it is
}

// String says what was found and what it means.
func (t *Torn) String() string {
	return fmt.Sprintf("%s: line %d, the last, was not written whole and is left out (%d bytes); it was never confirmed",
		t.File, t.Line, t.Bytes)
}

// DamagedError is returned for a journal with a line that no crash leaves
// behind. RecoverBefore goes on from before that line.
type DamagedError struct {
	File   string
	Line   int   // from 1
	Offset int64 // in bytes, where the line starts
	Reason string
	Good   int // records before it
	After  int // lines behind it
}

// Error names the file, the line and what is wrong.
func (e *DamagedError) Error() string {
	return fmt.Sprintf("%s: line %d (at byte %d) is damaged: %s; the %d lines before it are good, %d follow it",
		e.File, e.Line, e.Offset, e.Reason, e.Good, e.After)
}

// Scan reads the records of a journal from its bytes. The offset is where the
// good ones end. A line at the end that was not written whole is returned as
// torn. The payloads share memory with data.
//
// Errors: *DamagedError; the records before the damage are returned with it.
func Scan(file string, data []byte) (recs []Record, good int64, torn *Torn, err error) {
	for rest := data; len(rest) > 0; {
		line, after, whole := bytes.Cut(rest, []byte("\n"))
		r, bad := parseLine(line)
		last := len(after) == 0
		switch {
		case last && (!whole || bad != nil):
			return recs, good, &Torn{File: file, Line: len(recs) + 1, Offset: good, Bytes: len(rest)}, nil
		case bad == nil && r.Seq != uint64(len(recs))+1:
			bad = fmt.Errorf("its number is %d and should be %d", r.Seq, len(recs)+1)
		}
		if bad != nil {
			return recs, good, nil, &DamagedError{
				File: file, Line: len(recs) + 1, Offset: good, Reason: bad.Error(), Good: len(recs),
				After: bytes.Count(bytes.TrimSuffix(after, []byte("\n")), []byte("\n")) + min(1, len(after)),
			}
		}
		recs = append(recs, r)
		good += int64(len(line)) + 1
		rest = after
	}
	return recs, good, nil, nil
}
