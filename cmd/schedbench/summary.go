package main

import (
	"fmt"
	"io"
	"slices"
	"time"
)

// moments are the instants at which the answer so far is compared with the best
// known one. The first answer and the last come before and after them.
var moments = []time.Duration{10 * time.Millisecond, 100 * time.Millisecond, time.Second}

// summary gathers what is said after a folder.
type summary struct {
	total, proved, contradicted, better int
	proofs                              []float64 // ms, of each proof
	gaps                                map[string]*mean
	known                               int // instances with a best makespan
}

// mean is the mean of some numbers.
type mean struct {
	sum float64
	n   int
}

// add takes in one answer.
func (s *summary) add(a *answer, k known, contradicted bool) {
	s.total++
	if a.status.proved() {
		s.proved++
		s.proofs = append(s.proofs, ms(a.total))
	}
	if contradicted {
		s.contradicted++
	}
	if k.infeasible || k.best <= 0 {
		return
	}
	s.known++
	if len(a.found) == 0 {
		return
	}
	last := a.found[len(a.found)-1]
	if !k.proven && last.makespan < k.best {
		s.better++
	}
	s.gap("first", a.found[0], k)
	for _, m := range moments {
		if i := slices.IndexFunc(a.found, func(f found) bool { return f.after > m }); i != 0 {
			if i < 0 {
				i = len(a.found)
			}
			s.gap(m.String(), a.found[i-1], k)
		}
	}
	s.gap("end", last, k)
}

// gap notes by how many per cent an answer is above the best known.
func (s *summary) gap(at string, f found, k known) {
	if s.gaps == nil {
		s.gaps = map[string]*mean{}
	}
	if s.gaps[at] == nil {
		s.gaps[at] = &mean{}
	}
	s.gaps[at].sum += 100 * float64(f.makespan-k.best) / float64(k.best)
	s.gaps[at].n++
}

// print writes the summary; withKnown says whether there was anything to compare
// with.
func (s *summary) print(w io.Writer, path string, withKnown bool) error {
	text := fmt.Sprintf("%s: proved %d of %d", path, s.proved, s.total)
	if s.proved > 0 {
		text += fmt.Sprintf("; proof ms median %.2f, p95 %.2f, max %.2f", percentile(s.proofs, 50), percentile(s.proofs, 95), percentile(s.proofs, 100))
	}
	text += "\n"
	if withKnown {
		text += fmt.Sprintf("  mean gap to the best known, %% (answers, of %d with a best makespan):", s.known)
		for _, at := range []string{"first", moments[0].String(), moments[1].String(), moments[2].String(), "end"} {
			if m := s.gaps[at]; m != nil {
				text += fmt.Sprintf("  %s %.2f (%d)", at, m.sum/float64(m.n), m.n)
			} else {
				text += fmt.Sprintf("  %s - (0)", at)
			}
		}
		text += fmt.Sprintf("\n  contradictions %d; better than an unproven best %d\n", s.contradicted, s.better)
	}
	_, err := io.WriteString(w, text)
	return err
}

// percentile returns the least of the numbers that so many per cent of them do
// not exceed (the nearest rank); 0 of none. It sorts them.
func percentile(x []float64, percent int) float64 {
	if len(x) == 0 {
		return 0
	}
	slices.Sort(x)
	return x[max(0, (percent*len(x)+99)/100-1)]
}
