package journal

import "bytes"

// Memory is a journal that is gone with the process: for a rehearsal, which
// never enters the cook's history. The zero value is empty and ready. It is for
// one goroutine at a time.
type Memory struct {
	recs []Record
}

// Append keeps a copy of the payload.
//
// Errors: ErrPayload.
func (m *Memory) Append(payload []byte) (uint64, error) {
	if err := checkPayload(payload); err != nil {
		return 0, err
	}
	seq := uint64(len(m.recs)) + 1
	m.recs = append(m.recs, Record{Seq: seq, Payload: bytes.Clone(payload)})
	return seq, nil
}

// Records returns all records.
func (m *Memory) Records() []Record { return m.recs }
