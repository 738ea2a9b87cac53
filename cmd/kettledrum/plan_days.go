package main

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan"
)

// dayBegins returns when the cook-day begins: at midnight, but for a dinner so
// early in the morning that it is cooked the evening before.
func dayBegins(p *plan.Plan) time.Time {
	return plan.Earlier(p.CookDay(), p.Table.Add(-plan.DefaultLead)).In(p.Table.Location())
}

// days prints the rows: those before the cook-day by session, the rest by the
// hour.
func (s *sheetText) days(rows []row) {
	begins := dayBegins(s.p)
	ahead := rows
	if n := slices.IndexFunc(rows, func(r row) bool { return !r.at.Before(begins) }); n >= 0 {
		ahead, rows = rows[:n], rows[n:]
	} else {
		rows = nil
	}
	sessions := s.sessions()
	for len(ahead) > 0 {
		of := sessionOf(sessions, s.in(ahead[0].at))
		n := slices.IndexFunc(ahead, func(r row) bool { return !sessionOf(sessions, s.in(r.at)).Equal(of) })
		if n < 0 {
			n = len(ahead)
		}
		s.session(ahead[:n])
		ahead = ahead[n:]
		if len(ahead) == 0 && len(rows) > 0 {
			fmt.Fprintf(s.w, "\n%s\n", weekday(s.in(rows[0].at)))
		}
	}
	s.hours(rows)
}

// session prints the rows of one session under its day and time.
func (s *sheetText) session(rows []row) {
	var until time.Time
	for _, r := range rows {
		if r.work.After(until) {
			until = r.work
		}
	}
	title := weekday(s.in(rows[0].at)) + ", " + hour(s.in(rows[0].at))
	if until.After(rows[0].at) {
		title += "–" + hour(s.in(until))
	}
	fmt.Fprintf(s.w, "\n%s\n", title)
	for _, r := range rows {
		s.row(r)
	}
}

// hours prints rows with a heading for each hour.
func (s *sheetText) hours(rows []row) {
	var heading time.Time
	for _, r := range rows {
		at := s.in(r.at)
		if h := at.Add(-time.Duration(at.Minute())*time.Minute - time.Duration(at.Second())*time.Second); !h.Equal(heading) {
			title := hour(h)
			if !sameDay(h, orTime(heading, s.p.Table)) {
				title = day(h) + ", " + title
			}
			heading = h
			fmt.Fprintf(s.w, "\n%s\n", title)
		}
		s.row(r)
	}
}

// sessions returns when the sessions begin, in order: the windows of all cooks
// laid over each other.
func (s *sheetText) sessions() []time.Time {
	var all []plan.Window
	for _, c := range s.p.Kitchen.Cooks {
		all = append(all, c.Free...)
	}
	slices.SortFunc(all, func(a, b plan.Window) int { return a.From.Compare(b.From) })
	var begins []time.Time
	var to time.Time
	for _, w := range all {
		if w.From.After(to) {
			begins = append(begins, w.From)
		}
		if w.To.After(to) {
			to = w.To
		}
	}
	return begins
}

// sessionOf returns what tells the session of an instant from others: the last
// beginning before it or, before them all, its day.
func sessionOf(begins []time.Time, t time.Time) time.Time {
	of := midnight(t)
	if len(begins) == 0 || t.Before(begins[0]) {
		return of
	}
	for _, b := range begins {
		if !b.After(t) {
			of = b
		}
	}
	return of
}

// weekday prints a day in full: "Thursday 15 October".
func weekday(t time.Time) string { return t.Format("Monday 2 January") }
