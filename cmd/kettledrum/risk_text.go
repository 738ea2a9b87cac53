package main

import (
	"fmt"
	"io"
	"strings"
	"time"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/risk"
)

const (
	// mostCritical is how many steps the text tells of; --json tells of all.
	mostCritical = 10
	// histogramWidth is that of the longest bar.
	histogramWidth = 48
)

// percent prints a share, with its standard error: "89.8 % ± 0.3".
func percent(c risk.Chance, pm string) string {
	return fmt.Sprintf("%.1f %% %s %.1f", 100*c.P, pm, 100*c.SE)
}

// writeRisk prints what came of many evenings.
func writeRisk(w io.Writer, r *risk.Report, unicode bool) {
	p, pm := r.Dinner.Plan, "±"
	if !unicode {
		pm = "+-"
	}
	writePara(w, "", fmt.Sprintf("%s, cooked %s, seed %d", titleOf(p), count(r.Runs, "time", "times"), r.Seed))
	s := r.Dinner.Sampler
	writePara(w, "", fmt.Sprintf("How long %s may take the plan says; %s without a range may take from %.0f %% less to %.0f %% more.",
		count(s.Ranges, "step", "steps"), count(s.Defaults, "step", "steps"), 100*risk.DefaultShorter, 100*risk.DefaultLonger))
	writePara(w, "", fmt.Sprintf("On time is less than a minute late. %s is the standard error.", pm))
	fmt.Fprintln(w)
	writePara(w, "", fmt.Sprintf("Every course on time: %s. Every course within what it may be late: %s.", percent(r.OnTime, pm), percent(r.Within, pm)))
	for c := range r.Courses {
		writeChances(w, p, r, c, unicode, pm)
	}
	writeCritical(w, p, r, pm)
	writeStarts(w, p, r, pm)
}

func writeChances(w io.Writer, p *plan.Plan, r *risk.Report, c int, unicode bool, pm string) {
	x, course := &r.Courses[c], &p.Courses[c]
	fmt.Fprintln(w)
	writePara(w, "", fmt.Sprintf("%s, asked for %s, may be %s late", course.Name, hour(p.Asked(c)), plan.Spell(course.LateOK)))
	writePara(w, "  ", fmt.Sprintf("on time %s, within what it may be late %s", percent(x.OnTime, pm), percent(x.Within, pm)))
	var by []string
	for k, at := range x.At {
		by = append(by, fmt.Sprintf("%s in %.0f %% (%s %.0f s)", clockTime(p.Asked(c).Add(at.Time)), 100*risk.TimeLevels[k], pm, at.SE.Seconds()))
	}
	writePara(w, "  ", "on the table by "+strings.Join(by, ", ")+" of evenings")
	most := 0
	for _, b := range x.Bins {
		most = max(most, b.Runs)
	}
	for k, b := range x.Bins {
		from := "from " + hour(p.Asked(c).Add(b.From))
		if k == len(x.Bins)-1 && k > 0 {
			from = hour(p.Asked(c).Add(b.From)) + " on  "
		}
		fmt.Fprintf(w, "  %-10s  %s %d\n", from, stretch(b.Runs, most, unicode), b.Runs)
	}
}

// clockTime prints an instant to the second, but for a whole minute.
func clockTime(t time.Time) string {
	if t.Second() == 0 {
		return hour(t)
	}
	return t.Format("15:04:05")
}

// stretch draws a bar: in eighths of a cell, or in whole ones without Unicode.
func stretch(n, most int, unicode bool) string {
	if !unicode {
		return strings.Repeat("#", (n*histogramWidth+most/2)/most)
	}
	eighths := (n*histogramWidth*8 + most/2) / most
	out := strings.Repeat("█", eighths/8)
	if k := eighths % 8; k > 0 {
		out += string([]rune(" ▏▎▍▌▋▊▉")[k])
	}
	return out
}

// writeCritical prints where a dinner is thin.
func writeCritical(w io.Writer, p *plan.Plan, r *risk.Report, pm string) {
	if len(r.Steps) == 0 {
		return
	}
	fmt.Fprintln(w)
	writePara(w, "", "Where it is thin: how often a step lies on the way to what comes late, and by how much a minute of slack after it raises the chance that every course is on time")
	for _, s := range r.Steps[:min(mostCritical, len(r.Steps))] {
		buys := fmt.Sprintf("%.2f %% %s %.2f", 100*s.Minute.P, pm, 100*s.Minute.SE)
		if p.Steps[s.Step].Length.Elastic {
			buys = "a wait"
		}
		writeHanging(w, fmt.Sprintf("  %5.1f %%  %s  ", 100*s.Critical.P, pad(buys, 15)), p.StepName(s.Step))
	}
	if more := len(r.Steps) - mostCritical; more > 0 {
		writePara(w, "  ", fmt.Sprintf("and %s more seldom", count(more, "other step", "other steps")))
	}
}

// writeHanging prints text after a head, its further lines below where it began.
func writeHanging(w io.Writer, head, text string) {
	width := len([]rune(head))
	for _, l := range wrap(text, textWidth-width) {
		fmt.Fprintf(w, "%s%s\n", head, l)
		head = strings.Repeat(" ", width)
	}
}

// writeStarts prints how early is early enough.
func writeStarts(w io.Writer, p *plan.Plan, r *risk.Report, pm string) {
	fmt.Fprintln(w)
	writePara(w, "", "How much earlier all that is planned for the day must begin for every course to be on time; what is ready sooner waits as long")
	for _, s := range r.Starts {
		switch {
		case !s.OK:
			writePara(w, "  ", fmt.Sprintf("%.0f %%: no earlier start is enough by itself; plan --sure %.0f%% puts slack where it is needed", 100*s.Level, 100*s.Level))
		case s.Earlier == 0:
			writePara(w, "  ", fmt.Sprintf("%.0f %%: as planned", 100*s.Level))
		default:
			writePara(w, "  ", fmt.Sprintf("%.0f %%: %s earlier (%s %.1f min)", 100*s.Level, plan.Spell(s.Earlier), pm, s.SE.Minutes()))
		}
	}
}

// writeSampled prints what planning again gains.
func writeSampled(w io.Writer, s *risk.Sampled) {
	fmt.Fprintln(w)
	writePara(w, "", fmt.Sprintf("All this is without planning again as the evening goes. With it, as %s of these %s conducted:",
		count(s.Runs, "evening", "evenings"), map[bool]string{true: "was", false: "were"}[s.Runs == 1]))
	gain := func(what string, held, again, by risk.Chance) {
		writePara(w, "  ", fmt.Sprintf("%s in %.0f %% instead of %.0f %%: %+.0f %% (standard error %.0f)", what, 100*again.P, 100*held.P, 100*by.P, 100*by.SE))
	}
	gain("every course on time", s.Held.OnTime, s.Again.OnTime, s.OnTime)
	gain("every course within what it may be late", s.Held.Within, s.Again.Within, s.Within)
	writePara(w, "  ", fmt.Sprintf("the latest course %.1f min late on average instead of %.1f: %+.1f min (standard error %.1f)",
		s.Again.Latest.Minutes(), s.Held.Latest.Minutes(), -s.Latest.Time.Minutes(), s.Latest.SE.Minutes()))
	writePara(w, "  ", fmt.Sprintf("without it, the courses came when the simulation has them in %d of %d", s.Equal, s.Runs))
}
