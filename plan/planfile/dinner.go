package planfile

import (
	"fmt"
	"regexp"
	"time"
)

// dinner is when the first course is on the table.
type dinner struct {
	at      time.Time // as it is cooked
	written time.Time // as the plan says: what its weekdays refer to
	known   bool      // false: stands in for a time that could not be read
}

// dinnerTime reads `table` and Options.Serve.
func (d *decoder) dinnerTime(f fields) {
	n := f.get("table")
	if n == nil {
		d.missing(f, "table", "`table` is missing: when the first course is on the table",
			"write it like `table: 2026-10-17 19:00`")
	} else if at, ok := value(d, n, "`table`", func(s string) (time.Time, error) { return instant(s, d.loc) }); ok {
		d.table = dinner{at: at, written: at, known: true}
	}
	if !d.table.known {
		// Stand in, so that the rest of the file is checked as well.
		at := time.Date(2026, 1, 31, 19, 0, 0, 0, d.loc)
		d.table = dinner{at: at, written: at}
	}
	if d.o.Serve != "" {
		at, err := serveAt(d.o.Serve, d.o.Now, d.loc)
		if err != nil {
			d.fail(f.node, "serve", fmt.Sprintf("the time to serve (%s): %s", quote(d.o.Serve), err.(*mistake).text), "write it like 19:00 or 2026-12-05 19:00")
		} else {
			d.table.at = at
		}
	}
	d.p.Table = d.table.at
}

var (
	dateTime  = regexp.MustCompile(`^(\d{4})-(\d\d)-(\d\d)[ T]+(\d\d?):(\d\d)(?::00)?$`)
	dateOnly  = regexp.MustCompile(`^\d{4}-\d\d-\d\d$`)
	clockOnly = regexp.MustCompile(`^(\d\d?):(\d\d)$`)
)

// serveAt reads Options.Serve.
func serveAt(s string, now time.Time, loc *time.Location) (time.Time, error) {
	if m := clockOnly.FindStringSubmatch(s); m != nil {
		h, min, err := clockTime(m[1], m[2])
		if err != nil {
			return time.Time{}, err
		}
		return onDay(now.In(loc), 0, h, min)
	}
	return instant(s, loc)
}

// instant reads "2026-10-17 19:00" in loc, or RFC 3339 with its own offset.
func instant(s string, loc *time.Location) (time.Time, error) {
	m := dateTime.FindStringSubmatch(s)
	if m == nil {
		if t, err := time.Parse(time.RFC3339, s); err == nil && t.Second() == 0 && t.Nanosecond() == 0 {
			return t.In(loc), yearInRange(t)
		}
		text := fmt.Sprintf("%s is no date and time", quote(s))
		if dateOnly.MatchString(s) {
			text = fmt.Sprintf("%s has no time of day", quote(s))
		} else if clockOnly.MatchString(s) {
			text = fmt.Sprintf("%s has no date", quote(s))
		}
		return time.Time{}, &mistake{"time", text, "write it like 2026-10-17 19:00"}
	}
	day, err := date(m[1]+"-"+m[2]+"-"+m[3], loc)
	if err != nil {
		return time.Time{}, err
	}
	h, min, err := clockTime(m[4], m[5])
	if err != nil {
		return time.Time{}, err
	}
	return onDay(day, 0, h, min)
}

// date reads "2026-10-17" as noon of that day, an hour that no change of
// clocks touches.
func date(s string, loc *time.Location) (time.Time, error) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return time.Time{}, &mistake{"time", fmt.Sprintf("there is no day %s", s), ""}
	}
	return time.Date(t.Year(), t.Month(), t.Day(), 12, 0, 0, 0, loc), yearInRange(t)
}

func yearInRange(t time.Time) error {
	if t.Year() < 1970 || t.Year() > 2200 {
		return &mistake{"time", fmt.Sprintf("the year %d is out of range", t.Year()), ""}
	}
	return nil
}

// clockTime reads hours and minutes; 24:00 is the end of a day.
func clockTime(hours, minutes string) (h, m int, err error) {
	if _, err = fmt.Sscanf(hours+" "+minutes, "%d %d", &h, &m); err != nil || h > 24 || m > 59 || h == 24 && m > 0 {
		return 0, 0, &mistake{"time", fmt.Sprintf("there is no time %s:%s", hours, minutes), "hours go from 00 to 23, minutes from 00 to 59"}
	}
	return h, m, nil
}

// onDay returns the instant at which the clocks of day's zone show h:m, so many
// days after day. A time that a change of clocks makes double or missing is an
// error.
func onDay(day time.Time, days, h, m int) (time.Time, error) {
	y, mo, d := day.Date()
	loc := day.Location()
	asUTC := time.Date(y, mo, d+days, h, m, 0, 0, time.UTC)
	// Where clocks change near that time, the offsets of half a day before and
	// after differ, and one of the two leads to the instant meant.
	var found []time.Time
	for _, around := range []time.Duration{-12 * time.Hour, 12 * time.Hour} {
		_, offset := asUTC.Add(around).In(loc).Zone()
		t := asUTC.Add(-time.Duration(offset) * time.Second).In(loc)
		_, is := t.Zone()
		if is == offset && (len(found) == 0 || !found[0].Equal(t)) {
			found = append(found, t)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return time.Time{}, &mistake{"no-such-time", fmt.Sprintf("%s does not exist in %s: the clocks go forward over it",
			asUTC.Format("2006-01-02 15:04"), loc), "choose a time an hour earlier or later"}
	}
	return time.Time{}, &mistake{"double-time", fmt.Sprintf("%s comes twice in %s: the clocks go back over it",
		asUTC.Format("2006-01-02 15:04"), loc), "choose a time an hour earlier or later"}
}

// zone reads the name of a time zone.
func zone(s string) (*time.Location, error) {
	loc, err := time.LoadLocation(s)
	if err != nil || s == "Local" {
		return nil, &mistake{"zone", fmt.Sprintf("%s is no known time zone", quote(s)), "write it like Europe/Vienna or America/New_York"}
	}
	return loc, nil
}
