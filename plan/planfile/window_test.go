package planfile

import (
	"testing"
	"time"
)

func load(t *testing.T, name string) *time.Location {
	t.Helper()
	loc, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return loc
}

func TestWindow(t *testing.T) {
	t.Parallel()
	// 17 October 2026 is a Saturday. In Vienna clocks go forward on 29 March 2026
	// at 02:00 and back on 25 October 2026 at 03:00 (EU directive 2000/84/EC).
	vienna := load(t, "Europe/Vienna")
	table := time.Date(2026, 10, 17, 19, 0, 0, 0, vienna)
	const form = "Mon 2006-01-02 15:04 -0700"
	for _, c := range []struct {
		in, from, to, err string
	}{
		{"Sat 10:00-23:00", "Sat 2026-10-17 10:00 +0200", "Sat 2026-10-17 23:00 +0200", ""},
		{"Saturday 10:00-23:00", "Sat 2026-10-17 10:00 +0200", "Sat 2026-10-17 23:00 +0200", ""},
		{"Fri 18:00 - 21:00", "Fri 2026-10-16 18:00 +0200", "Fri 2026-10-16 21:00 +0200", ""},
		{"Sun 18:00-21:00", "Sun 2026-10-11 18:00 +0200", "Sun 2026-10-11 21:00 +0200", ""},
		{"10:00-23:00", "Sat 2026-10-17 10:00 +0200", "Sat 2026-10-17 23:00 +0200", ""},
		{"9:00-24:00", "Sat 2026-10-17 09:00 +0200", "Sun 2026-10-18 00:00 +0200", ""},
		{"Fri 20:00-02:00", "Fri 2026-10-16 20:00 +0200", "Sat 2026-10-17 02:00 +0200", ""},
		{"-2d 18:00-21:00", "Thu 2026-10-15 18:00 +0200", "Thu 2026-10-15 21:00 +0200", ""},
		{"2026-10-17 10:00–23:00", "Sat 2026-10-17 10:00 +0200", "Sat 2026-10-17 23:00 +0200", ""},
		{"2026-10-25 01:00-04:00", "Sun 2026-10-25 01:00 +0200", "Sun 2026-10-25 04:00 +0100", ""},
		{"2026-10-25 02:30-04:00", "", "", "comes twice"},
		{"2026-03-29 02:30-04:00", "", "", "does not exist"},
		{"2026-03-29 03:00-04:00", "Sun 2026-03-29 03:00 +0200", "Sun 2026-03-29 04:00 +0200", ""},
		{"2026-02-30 10:00-11:00", "", "", "no day"},
		{"Satt 10:00-11:00", "", "", "did you mean Sat?"},
		{"sat 10:00-11:00", "", "", "did you mean Sat?"},
		{"Sat 10:00-25:00", "", "", "no time 25:00"},
		{"Sat 10:60-11:00", "", "", "no time 10:60"},
		{"10:00-10:00", "", "", "same time"},
		{"Sat 10-23", "", "", "no stretch of time"},
		{"Saturday", "", "", "no stretch of time"},
	} {
		w, err := dinner{at: table, written: table}.window(c.in)
		if wantErr(t, c.in, err, c.err) {
			if from, to := w.From.Format(form), w.To.Format(form); from != c.from || to != c.to {
				t.Errorf("%q: got %s to %s, want %s to %s", c.in, from, to, c.from, c.to)
			}
		}
	}
}

// A dinner moved by Options.Serve takes its relative windows along by whole
// days; windows of a date stay.
func TestWindowMoves(t *testing.T) {
	t.Parallel()
	vienna := load(t, "Europe/Vienna")
	d := dinner{
		written: time.Date(2026, 10, 17, 19, 0, 0, 0, vienna), // Saturday
		at:      time.Date(2026, 12, 9, 20, 30, 0, 0, vienna), // Wednesday
	}
	for in, want := range map[string]string{
		"Sat 10:00-23:00":        "2026-12-09 10:00",
		"Fri 10:00-23:00":        "2026-12-08 10:00",
		"10:00-23:00":            "2026-12-09 10:00",
		"-1d 10:00-23:00":        "2026-12-08 10:00",
		"2026-10-17 10:00-23:00": "2026-10-17 10:00",
	} {
		w, err := d.window(in)
		if err != nil {
			t.Errorf("%q: %v", in, err)
		} else if got := w.From.Format("2006-01-02 15:04"); got != want {
			t.Errorf("%q: got %s, want %s", in, got, want)
		}
	}
}

func TestInstant(t *testing.T) {
	t.Parallel()
	// Summer time in New York starts on 8 March 2026 at 02:00 and ends on 1
	// November 2026 at 02:00 (15 U.S.C. 260a).
	ny := load(t, "America/New_York")
	for _, c := range []struct{ in, want, err string }{
		{"2026-10-17 19:00", "2026-10-17T19:00:00-04:00", ""},
		{"2026-10-17T19:00", "2026-10-17T19:00:00-04:00", ""},
		{"2026-10-17T19:00:00", "2026-10-17T19:00:00-04:00", ""},
		{"2026-10-17T19:00:00Z", "2026-10-17T15:00:00-04:00", ""},
		{"2026-10-17T19:00:00+02:00", "2026-10-17T13:00:00-04:00", ""},
		{"2026-11-01T01:30:00-05:00", "2026-11-01T01:30:00-05:00", ""},
		{"2026-11-01 01:30", "", "comes twice"},
		{"2026-03-08 02:30", "", "does not exist"},
		{"2026-10-17", "", "no time of day"},
		{"19:00", "", "no date"},
		{"2026-13-17 19:00", "", "no day"},
		{"0001-01-01 19:00", "", "out of range"},
		{"tomorrow", "", "no date and time"},
	} {
		got, err := instant(c.in, ny)
		if wantErr(t, c.in, err, c.err) && got.Format(time.RFC3339) != c.want {
			t.Errorf("%q: got %s, want %s", c.in, got.Format(time.RFC3339), c.want)
		}
	}
}
