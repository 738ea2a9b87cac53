package soundtest

import (
	"time"

	"example.org/kettledrum/sounds"
)

// Gaps returns the times from each onset to the next.
func Gaps(onsets []time.Duration) []time.Duration {
	var out []time.Duration
	for i := 1; i < len(onsets); i++ {
		out = append(out, onsets[i]-onsets[i-1])
	}
	return out
}

// Apart is by how much two rhythms differ at least, wherever the shorter is held
// against the longer: the least, over all places, of the greatest difference of two
// gaps. So it tells whether one could be taken for a part of the other that is heard
// without its beginning or its end. A rhythm without a gap is a part of any: zero.
func Apart(a, b []time.Duration) time.Duration {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(a) == 0 {
		return 0
	}
	least := time.Duration(1<<63 - 1)
	for at := 0; at+len(a) <= len(b); at++ {
		most := time.Duration(0)
		for i := range a {
			most = max(most, (a[i] - b[at+i]).Abs())
		}
		least = min(least, most)
	}
	return least
}

// Which returns the motif that onsets are the pattern of: as many pulses, and no gap
// further off than slack; ok is false where there is none.
func Which(onsets []time.Duration, slack time.Duration) (m sounds.Motif, ok bool) {
	for _, m := range sounds.Motifs() {
		if len(onsets) == len(m.Score.Pulses) && (len(onsets) == 1 || Apart(Gaps(onsets), Gaps(m.Score.Onsets())) <= slack) {
			return m, len(onsets) > 0
		}
	}
	return sounds.Motif{}, false
}
