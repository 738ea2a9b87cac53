package main

import "strings"

// parseSM reads the single-mode format of PSPLIB. Its arcs go from the end of a
// job to the start of another; jobs count from 1, the first is the source and the
// last the sink. Source: Kolisch and Sprecher, PSPLIB – a project scheduling
// problem library, European Journal of Operational Research 96 (1997) 205–216.
//
// Errors: name:line: what is wrong, what would be right.
func parseSM(name, text string) (*project, error) {
	l := newLines(name, text)
	jobs, resources, err := l.headerSM()
	if err != nil {
		return nil, err
	}
	p := newProject(jobs, resources)
	arcs, err := l.arcsSM(jobs)
	if err != nil {
		return nil, err
	}
	if err := l.section("REQUESTS/DURATIONS:", 2); err != nil {
		return nil, err
	}
	if err := l.requests(p, 1); err != nil {
		return nil, err
	}
	if err := l.section("RESOURCEAVAILABILITIES:", 1); err != nil {
		return nil, err
	}
	if err := l.capacities(p); err != nil {
		return nil, err
	}
	for _, a := range arcs {
		a.least = p.duration[a.from]
		p.lags = append(p.lags, a)
	}
	return p, p.fits(name)
}

// headerSM reads the lines "name : value" that tell the sizes.
func (l *lines) headerSM() (jobs, resources int, err error) {
	for jobs == 0 || resources == 0 {
		row, err := l.next(`the header lines "jobs (incl. supersource/sink )" and "- renewable"`)
		if err != nil {
			return 0, 0, err
		}
		key, value, ok := strings.Cut(row, ":")
		key = strings.TrimSpace(key)
		switch {
		case !ok:
		case strings.HasPrefix(key, "jobs"):
			if jobs, err = l.size(value, 2, maxJobs, "a number of jobs"); err != nil {
				return 0, 0, err
			}
		case key == "- renewable":
			if resources, err = l.size(value, 1, maxResources, "a number of resources"); err != nil {
				return 0, 0, err
			}
		}
	}
	return jobs, resources, nil
}

// size reads the number that a header line begins with.
func (l *lines) size(value string, least, most int, want string) (int, error) {
	words := strings.Fields(value)
	if len(words) == 0 {
		return 0, l.fail("nothing after the colon, want %s", want)
	}
	n, err := l.number(words[0], want)
	if err == nil && (n < least || n > most) {
		err = l.fail("%d, want %s from %d to %d", n, want, least, most)
	}
	return n, err
}

// section goes on to the row that starts a section, and past its heading rows.
func (l *lines) section(title string, heading int) error {
	for {
		row, err := l.next("the section " + title)
		if err != nil {
			return err
		}
		if strings.TrimSpace(row) == title {
			break
		}
	}
	for range heading {
		if _, err := l.next("the heading of " + title); err != nil {
			return err
		}
	}
	return nil
}

// arcsSM reads the rows "job modes count s1 … sCount".
func (l *lines) arcsSM(jobs int) ([]lag, error) {
	const want = "job, modes, number of successors, and the successors"
	if err := l.section("PRECEDENCE RELATIONS:", 1); err != nil {
		return nil, err
	}
	var arcs []lag
	for j := range jobs {
		row, err := l.job(j+1, 2, false, want)
		if err != nil {
			return nil, err
		}
		if row[0] != 1 {
			return nil, l.fail("job %d has %d modes, want 1: jobs of several modes are not read", j+1, row[0])
		}
		if row[1] != len(row)-2 {
			return nil, l.fail("job %d has %d successors listed, its row says %d", j+1, len(row)-2, row[1])
		}
		for _, s := range row[2:] {
			if s < 1 || s > jobs || s == j+1 {
				return nil, l.fail("successor %d of job %d, want another job from 1 to %d", s, j+1, jobs)
			}
			arcs = append(arcs, lag{from: j, to: s - 1})
		}
	}
	return arcs, nil
}
