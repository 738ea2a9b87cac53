package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// project is a resource-constrained project with time lags: RCPSP, or RCPSP/max
// where lags are negative too. Job 0 is the source and starts at 0, the last job
// is the sink; its start is the makespan.
type project struct {
	name     string // of the file
	duration []int  // of each job
	demand   [][]int
	lags     []lag
	capacity []int
}

// lag demands start(to) ≥ start(from) + least.
type lag struct{ from, to, least int }

// sink is the last job.
func (p *project) sink() int { return len(p.duration) - 1 }

// horizon returns an upper bound on the makespan of any project that has a
// schedule: the sum over jobs of the greater of its duration and its largest lag
// to another. Jobs can be pushed together until each starts no later than that
// after the one before.
func (p *project) horizon() int {
	reach := append([]int(nil), p.duration...)
	for _, l := range p.lags {
		reach[l.from] = max(reach[l.from], l.least)
	}
	sum := 0
	for _, r := range reach {
		sum += r
	}
	return sum
}

// tooMuch returns the first job that asks for more of a resource than there is.
// Then there is no schedule at all.
func (p *project) tooMuch() (job, resource int, ok bool) {
	for j, d := range p.demand {
		for r, amount := range d {
			if p.duration[j] > 0 && amount > p.capacity[r] {
				return j, r, true
			}
		}
	}
	return 0, 0, false
}

// What a reader accepts: far beyond any published instance, and small enough
// that sums stay within the engine's ticks.
const (
	maxJobs      = 20_000
	maxResources = 1000
	maxNumber    = 1_000_000
	maxHorizon   = 1 << 27
)

// readProject reads a file in the format that its name tells.
//
// Errors: that of reading, or file:line: what is wrong, what would be right.
func readProject(path string) (*project, error) {
	parse := parserFor(path)
	if parse == nil {
		return nil, fmt.Errorf("%s: unknown format, want a name that ends in .sm or .sch", path)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	p, err := parse(path, string(data))
	if err != nil {
		return nil, err
	}
	p.name = filepath.Base(path)
	return p, nil
}

// parserFor returns the parser for a file of that name, or nil.
func parserFor(name string) func(name, text string) (*project, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".sm":
		return parseSM
	case ".sch":
		return parseSCH
	}
	return nil
}

// newProject returns a project of so many jobs and resources, still empty.
func newProject(jobs, resources int) *project {
	return &project{duration: make([]int, jobs), demand: make([][]int, jobs), capacity: make([]int, resources)}
}

// fits refuses a project whose times would not fit into the engine's ticks.
func (p *project) fits(name string) error {
	if h := p.horizon(); h > maxHorizon {
		return fmt.Errorf("%s: durations and lags add up to %d, want at most %d", name, h, maxHorizon)
	}
	return nil
}
