package tui

import (
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/tui/theme"
)

func TestClean(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ name, in, want, ascii string }{
		{"plain", "Roast at 325 F", "Roast at 325 F", "Roast at 325 F"},
		{"colour", "a\x1b[31mred\x1b[0mb", "aredb", "aredb"},
		{"title", "a\x1b]0;owned\x07b", "ab", "ab"},
		{"bell-and-return", "a\a\rb", "ab", "ab"},
		{"lines", "a\nb\tc", "a b c", "a b c"},
		{"c1", "a\u009b31mb", "a31mb", "a31mb"},
		{"direction", "a\u202eb\u2066c", "abc", "abc"},
		{"prepended", "a\u0601b", "ab", "ab"},
		{"broken-utf8", "a\xffb", "ab", "ab"},
		{"degrees", "400 °F · 5 – 10", "400 °F · 5 – 10", "400 F - 5 - 10"},
		{"accents", "crème brûlée ½", "crème brûlée ½", "creme brulee 1/2"},
		{"kanji", "大根", "大根", "??"},
	} {
		if got := clean(c.in, false); got != c.want {
			t.Errorf("%s: clean(%q) = %q, want %q", c.name, c.in, got, c.want)
		}
		if got := clean(c.in, true); got != c.ascii {
			t.Errorf("%s: in ASCII clean(%q) = %q, want %q", c.name, c.in, got, c.ascii)
		}
	}
}

func FuzzLine(f *testing.F) {
	f.Add("Roast the chicken", 12)
	f.Add("大根\x1b[2J🥕", 5)
	f.Fuzz(func(t *testing.T, s string, n int) {
		if n < 0 || n > 300 {
			return
		}
		for _, ascii := range []bool{false, true} {
			th := theme.Bare(ascii)
			lines := append(painter{th}.wrapLines(s, n, 3), s)
			for _, l := range lines {
				got := newLine(th, n).put(theme.Plain, l).done()
				if w := ansi.StringWidth(got); w != n || strings.ContainsAny(got, "\x1b\n\r\a\t") {
					t.Errorf("%q in %d cells: %q is %d wide", l, n, got, w)
				}
			}
		}
	})
}

func TestWrap(t *testing.T) {
	t.Parallel()
	th := painter{theme.Bare(false)}
	for _, c := range []struct {
		name string
		in   string
		w, n int
		want string
	}{
		{"fits", "boil the beans", 14, 2, "boil the beans"},
		{"at-spaces", "boil the beans now", 9, 3, "boil the|beans now"},
		{"long-word", "abcdefghij k", 4, 5, "abcd|efgh|ij k"},
		{"cut", "one two three four", 7, 2, "one two|three …"},
	} {
		if got := strings.Join(th.wrap(c.in, c.w, c.n), "|"); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestCountdown(t *testing.T) {
	t.Parallel()
	for d, want := range map[time.Duration]string{
		-time.Minute:                            "0:00",
		0:                                       "0:00",
		time.Millisecond:                        "0:01",
		61 * time.Second:                        "1:01",
		10*time.Minute - time.Second:            "9:59",
		10*time.Minute - time.Millisecond:       "10 min",
		10*time.Minute + time.Second:            "11 min",
		59*time.Minute + time.Second:            "1 h 00",
		65 * time.Minute:                        "1 h 05",
		23*time.Hour + 59*time.Minute:           "23 h 59",
		51 * time.Hour:                          "2 d 3 h",
		time.Duration(1<<63-1) - 30*time.Second: "3650 d",
	} {
		if got := countdown(d); got != want {
			t.Errorf("countdown(%v) = %q, want %q", d, got, want)
		}
		if got := countdown(d); len(got) > leftCells+1 {
			t.Errorf("countdown(%v) = %q is wider than its column", d, got)
		}
	}
}

func TestParseTimer(t *testing.T) {
	t.Parallel()
	for in, want := range map[string]string{
		"tea 4": "tea 4", "green tea 12": "green tea 12", "4": "4 min 4", "tea 4 min": "tea 4", "tea 4min": "tea 4",
		"tea": "", "": "", "tea 0": "", "tea -3": "", "tea 9999": "", "min": "",
	} {
		label, n, err := parseTimer(in)
		got := ""
		if err == nil {
			got = label + " " + span(time.Duration(n)*time.Minute)
			got = strings.TrimSuffix(got, " min")
		}
		if got != want {
			t.Errorf("parseTimer(%q) = %q (%v), want %q", in, got, err, want)
		}
	}
}

func TestWindow(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ n, h, at, from, to int }{{3, 5, -1, 0, 3}, {9, 4, -1, 0, 3}, {9, 4, 8, 6, 9}, {9, 4, 4, 2, 5}, {2, 1, 1, 1, 2}} {
		from, to, _ := window(c.n, c.h, c.at)
		if from != c.from || to != c.to {
			t.Errorf("window(%d, %d, %d) = %d, %d, want %d, %d", c.n, c.h, c.at, from, to, c.from, c.to)
		}
		if c.at >= 0 && (c.at < from || c.at >= to) {
			t.Errorf("window(%d, %d, %d) leaves the selected row out", c.n, c.h, c.at)
		}
	}
}
