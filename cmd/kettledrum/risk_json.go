package main

import (
	"time"

	"example.org/kettledrum/plan/risk"
)

// The JSON that `rehearse --runs --json` prints, by the same rules as that of `plan
// --json`: see planJSON. Chances are from 0 to 1, each with its standard error. The
// JSON Schema of it is risk.schema.json.
type riskJSON struct {
	Title    string       `json:"title"`
	Seed     uint64       `json:"seed"`
	Asked    int          `json:"asked"`
	Runs     int          `json:"runs"` // fewer than asked: it was stopped
	Ranges   int          `json:"ranges"`
	Defaults int          `json:"defaults"` // steps that have the default spread
	OnTime   chanceJSON   `json:"on_time"`
	Within   chanceJSON   `json:"within"`
	Courses  []oddsJSON   `json:"courses"`
	Steps    []thinJSON   `json:"steps"`
	Starts   []startJSON  `json:"starts"`
	Sample   *sampledJSON `json:"sample"` // null: none was asked for
}

type chanceJSON struct {
	P  float64 `json:"p"`
	SE float64 `json:"se"`
}

type oddsJSON struct {
	Name   string     `json:"name"`
	Asked  time.Time  `json:"asked"`
	OnTime chanceJSON `json:"on_time"`
	Within chanceJSON `json:"within"`
	By     []byJSON   `json:"by"`
	Bins   []binJSON  `json:"histogram"`
}

type byJSON struct {
	Share float64   `json:"share"`
	At    time.Time `json:"at"`
	SE    float64   `json:"se_s"`
}

type binJSON struct {
	From time.Time  `json:"from"`
	To   *time.Time `json:"to"` // null of the last, which has all that is later
	Runs int        `json:"runs"`
}

type thinJSON struct {
	Step     string     `json:"step"`
	Critical chanceJSON `json:"critical"`
	Minute   chanceJSON `json:"minute_of_slack"`
}

type startJSON struct {
	Chance  float64  `json:"chance"`
	Earlier *float64 `json:"earlier_min"` // null: no earlier start is enough
	SE      float64  `json:"se_min"`
}

type sampledJSON struct {
	Asked        int        `json:"asked"`
	Runs         int        `json:"runs"`
	Equal        int        `json:"equal"`
	Held         tallyJSON  `json:"held"`
	Again        tallyJSON  `json:"again"`
	GainOnTime   chanceJSON `json:"gain_on_time"`
	GainWithin   chanceJSON `json:"gain_within"`
	GainLatest   float64    `json:"gain_latest_min"`
	GainLatestSE float64    `json:"gain_latest_se_min"`
}

type tallyJSON struct {
	OnTime chanceJSON `json:"on_time"`
	Within chanceJSON `json:"within"`
	Latest float64    `json:"latest_min"`
}

func viewRisk(r *risk.Report, s *risk.Sampled) riskJSON {
	p, in := r.Dinner.Plan, inZone(r.Dinner.Plan)
	v := riskJSON{
		Title: p.Title, Seed: r.Seed, Asked: r.Asked, Runs: r.Runs, Ranges: r.Dinner.Sampler.Ranges, Defaults: r.Dinner.Sampler.Defaults,
		OnTime: chanceJSON(r.OnTime), Within: chanceJSON(r.Within), Courses: []oddsJSON{}, Steps: []thinJSON{}, Starts: []startJSON{},
	}
	for c, x := range r.Courses {
		asked := in(p.Asked(c))
		o := oddsJSON{Name: p.Courses[c].Name, Asked: asked, OnTime: chanceJSON(x.OnTime), Within: chanceJSON(x.Within), By: []byJSON{}, Bins: []binJSON{}}
		for k, at := range x.At {
			o.By = append(o.By, byJSON{risk.TimeLevels[k], asked.Add(at.Time), at.SE.Seconds()})
		}
		for k, b := range x.Bins {
			row := binJSON{From: asked.Add(b.From), Runs: b.Runs}
			if to := asked.Add(b.From + b.Width); k < len(x.Bins)-1 {
				row.To = &to
			}
			o.Bins = append(o.Bins, row)
		}
		v.Courses = append(v.Courses, o)
	}
	for _, x := range r.Steps {
		v.Steps = append(v.Steps, thinJSON{p.Steps[x.Step].ID, chanceJSON(x.Critical), chanceJSON(x.Minute)})
	}
	for _, x := range r.Starts {
		row := startJSON{Chance: x.Level, SE: x.SE.Minutes()}
		if min := x.Earlier.Minutes(); x.OK {
			row.Earlier = &min
		}
		v.Starts = append(v.Starts, row)
	}
	if s != nil {
		v.Sample = &sampledJSON{
			s.Asked, s.Runs, s.Equal, viewTally(s.Held), viewTally(s.Again), chanceJSON(s.OnTime), chanceJSON(s.Within),
			s.Latest.Time.Minutes(), s.Latest.SE.Minutes(),
		}
	}
	return v
}

func viewTally(t risk.Tally) tallyJSON {
	return tallyJSON{chanceJSON(t.OnTime), chanceJSON(t.Within), t.Latest.Minutes()}
}
