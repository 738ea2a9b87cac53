package main

import "strings"

// parseSCH reads the single-mode format of ProGen/max. Its arcs carry lags from
// start to start, negative ones being greatest lags the other way round; jobs
// count from 0, the first is the source and the last the sink. Source: Kolisch,
// Schwindt and Sprecher, Benchmark instances for project scheduling problems, in
// Węglarz (ed.), Project Scheduling, Kluwer 1999, 197–212.
//
// Errors: name:line: what is wrong, what would be right.
func parseSCH(name, text string) (*project, error) {
	l := newLines(name, text)
	const want = "the numbers of jobs and of resources, and two zeros"
	head, err := l.numbers(want)
	if err != nil {
		return nil, err
	}
	if len(head) != 4 {
		return nil, l.fail("%d numbers, want %s", len(head), want)
	}
	if head[0] < 0 || head[0] > maxJobs-2 {
		return nil, l.fail("%d jobs, want 0 to %d", head[0], maxJobs-2)
	}
	if head[1] < 0 || head[1] > maxResources {
		return nil, l.fail("%d resources, want 0 to %d", head[1], maxResources)
	}
	if head[2] != 0 || head[3] != 0 {
		return nil, l.fail("resources of other kinds (%d, %d), want 0 and 0: only renewable ones are read", head[2], head[3])
	}
	p := newProject(head[0]+2, head[1])
	for j := range p.duration {
		if err := l.arcsSCH(p, j); err != nil {
			return nil, err
		}
	}
	if err := l.requests(p, 0); err != nil {
		return nil, err
	}
	if err := l.capacities(p); err != nil {
		return nil, err
	}
	return p, p.fits(name)
}

// arcsSCH reads the row "job modes count s1 … sCount [l1] … [lCount]".
func (l *lines) arcsSCH(p *project, job int) error {
	const want = "job, mode 1, number of arcs, the targets, and as many lags in square brackets"
	row, err := l.next(want)
	if err != nil {
		return err
	}
	words := strings.Fields(row)
	if len(words) < 3 {
		return l.fail("%d words, want %s", len(words), want)
	}
	var head [3]int
	for i := range head {
		if head[i], err = l.number(words[i], want); err != nil {
			return err
		}
	}
	if head[0] != job {
		return l.fail("the row of job %d, want that of job %d", head[0], job)
	}
	if head[1] != 1 {
		return l.fail("job %d has %d modes, want 1: jobs of several modes are not read", job, head[1])
	}
	count := head[2]
	if count < 0 || len(words) != 3+2*count {
		return l.fail("%d words after the number of arcs, want %d targets and %d lags", len(words)-3, count, count)
	}
	for k := range count {
		to, err := l.number(words[3+k], "a target")
		if err != nil {
			return err
		}
		if to < 0 || to > p.sink() || to == job {
			return l.fail("target %d of job %d, want another job from 0 to %d", to, job, p.sink())
		}
		word := words[3+count+k]
		inner, open := strings.CutPrefix(word, "[")
		inner, shut := strings.CutSuffix(inner, "]")
		if !open || !shut {
			return l.fail("lag %q, want a number in square brackets, like [3]", word)
		}
		least, err := l.number(inner, "a lag like [3]")
		if err != nil {
			return err
		}
		p.lags = append(p.lags, lag{job, to, least})
	}
	return nil
}
