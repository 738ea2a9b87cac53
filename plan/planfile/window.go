package planfile

import (
	"fmt"
	"regexp"
	"time"

	"example.org/kettledrum/plan"
)

var (
	windowForm = regexp.MustCompile(`^(?:(\pL+|-\d{1,3}d|\d{4}-\d\d-\d\d) +)?(\d\d?):(\d\d) ?[-–] ?(\d\d?):(\d\d)$`)
	weekdays   = []string{"Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"}
)

// window reads "Sat 10:00-23:00" (the last such day up to the dinner's),
// "2026-10-17 10:00-23:00", "-2d 18:00-21:00" or "10:00-23:00" (the
// cook-day). An end at or before the start is on the next day.
func (t dinner) window(s string) (plan.Window, error) {
	m := windowForm.FindStringSubmatch(s)
	if m == nil {
		return plan.Window{}, &mistake{"window", fmt.Sprintf("%s is no stretch of time", quote(s)),
			"write it like Sat 10:00-23:00, 10:00-23:00, -1d 18:00-21:00 or 2026-10-17 10:00-23:00"}
	}
	day, days, err := t.day(m[1])
	if err != nil {
		return plan.Window{}, err
	}
	h1, m1, err := clockTime(m[2], m[3])
	if err != nil {
		return plan.Window{}, err
	}
	h2, m2, err := clockTime(m[4], m[5])
	if err != nil {
		return plan.Window{}, err
	}
	if h1*60+m1 == h2*60+m2 {
		return plan.Window{}, &mistake{"window", fmt.Sprintf("%s starts and ends at the same time", quote(s)), ""}
	}
	var w plan.Window
	if w.From, err = onDay(day, days, h1, m1); err != nil {
		return w, err
	}
	if h2*60+m2 < h1*60+m1 {
		days++
	}
	w.To, err = onDay(day, days, h2, m2)
	return w, err
}

// day reads the day of a window: a reference day and days to add.
func (t dinner) day(s string) (day time.Time, days int, err error) {
	switch {
	case s == "":
		return t.at, 0, nil
	case s[0] == '-':
		_, err = fmt.Sscanf(s, "-%dd", &days)
		return t.at, -days, err
	case s[0] >= '0' && s[0] <= '9':
		day, err = date(s, t.at.Location())
		return day, 0, err
	}
	for i, w := range weekdays {
		if s == w || s == time.Weekday(i).String() {
			// The days back count from the day the plan says, so that a dinner
			// moved by Options.Serve takes its windows along.
			back := (int(t.written.Weekday()) - i + 7) % 7
			return t.at, -back, nil
		}
	}
	hint := "write Mon, Tue, Wed, Thu, Fri, Sat or Sun"
	if w, ok := nearest(s, weekdays, 3); ok {
		hint = fmt.Sprintf("did you mean %s?", w)
	}
	return t.at, 0, &mistake{"window", fmt.Sprintf("%s is no day of the week", quote(s)), hint}
}
