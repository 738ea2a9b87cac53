package planfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// longest is the greatest duration a plan may state: nothing keeps longer, and
// sums of such durations stay far from overflow.
const longest = 2 * 365 * 24 * time.Hour

// units of a duration, longest first. A day is 24 real hours, a month 30 days.
var units = []struct {
	word string
	size time.Duration
}{
	{"mo", 30 * 24 * time.Hour},
	{"w", 7 * 24 * time.Hour},
	{"d", 24 * time.Hour},
	{"h", time.Hour},
	{"m", time.Minute},
	{"s", time.Second},
}

// unitWords maps what people write instead of a unit to the unit.
var unitWords = map[string]string{
	"sec": "s", "secs": "s", "second": "s", "seconds": "s",
	"min": "m", "mins": "m", "minute": "m", "minutes": "m",
	"hr": "h", "hrs": "h", "hour": "h", "hours": "h",
	"day": "d", "days": "d", "wk": "w", "week": "w", "weeks": "w",
	"month": "mo", "months": "mo",
}

// mistake is a value that does not follow its grammar, and what would.
type mistake struct {
	code string
	text string
	hint string
}

// Error returns what is wrong, and what would be right after a semicolon.
func (m *mistake) Error() string {
	if m.hint == "" {
		return m.text
	}
	return m.text + "; " + m.hint
}

var (
	number = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?$`)
	part   = regexp.MustCompile(`^([0-9]+(?:\.[0-9]+)?) ?(\pL*)(.*)$`)
	single = regexp.MustCompile(`^[0-9]+(?:\.[0-9]+)?(\pL+)$`)
)

// Duration reads a duration as the cook writes it: "8m", "1h30m", "90s", "3d",
// "2w", "1mo". Units go from long to short. A bare number is an error, for
// nobody can tell minutes from hours.
func Duration(s string) (time.Duration, error) {
	s = strings.TrimSpace(s)
	if number.MatchString(s) {
		return 0, &mistake{"duration", fmt.Sprintf("%s has no unit", quote(s)),
			fmt.Sprintf("write %sm for minutes or %sh for hours", s, s)}
	}
	var sum time.Duration
	rest, from := s, 0
	for rest != "" {
		m := part.FindStringSubmatch(rest)
		if m == nil {
			return 0, noDuration(s)
		}
		at := unitIndex(m[2])
		if at < 0 {
			if u, ok := unitWords[strings.ToLower(m[2])]; ok {
				return 0, &mistake{"duration", fmt.Sprintf("%s is no unit of time", quote(m[2])),
					fmt.Sprintf("write %s%s", m[1], u)}
			}
			return 0, noDuration(s)
		}
		if at < from {
			return 0, &mistake{"duration", fmt.Sprintf("%s does not go from long to short units", quote(s)),
				"write it like 1h30m"}
		}
		from = at + 1
		f, err := strconv.ParseFloat(m[1], 64)
		if err != nil || f*float64(units[at].size) > float64(longest) {
			return 0, &mistake{"duration", fmt.Sprintf("%s is longer than two years", quote(s)), ""}
		}
		sum += time.Duration(f * float64(units[at].size)).Round(time.Second)
		rest = strings.TrimLeft(m[3], " ")
	}
	if s == "" {
		return 0, noDuration(s)
	}
	return min(sum, longest), nil
}

// written shows a duration as a plan writes it.
func written(d time.Duration) string {
	if d == 0 {
		return "0m"
	}
	out := ""
	for _, u := range units[2:] { // months and weeks are no clearer than days
		if n := d / u.size; n > 0 {
			out += fmt.Sprintf("%d%s", n, u.word)
			d -= n * u.size
		}
	}
	return out
}

func unitIndex(word string) int {
	for i, u := range units {
		if u.word == word {
			return i
		}
	}
	return -1
}

func noDuration(s string) error {
	return &mistake{"duration", fmt.Sprintf("%s is no duration", quote(s)), "write it like 8m, 1h30m, 90s or 3d"}
}

// cutRange splits "a-b", "a–b" and "a to b". Whether there was a range is the
// third result; without one all of s is the first.
func cutRange(s string) (from, to string, ok bool) {
	for _, sep := range []string{" to ", "–", "—", "-"} {
		if from, to, ok = strings.Cut(s, sep); ok {
			return strings.TrimSpace(from), strings.TrimSpace(to), true
		}
	}
	return strings.TrimSpace(s), "", false
}

// durationRange reads "25-35m", "25m-35m", "25m to 35m", or a single duration,
// which is a range of itself; ranged tells the two apart.
func durationRange(s string) (lo, hi time.Duration, ranged bool, err error) {
	from, to, ranged := cutRange(s)
	if !ranged {
		lo, err = Duration(from)
		return lo, lo, false, err
	}
	if number.MatchString(from) && number.MatchString(to) {
		sep := strings.TrimSuffix(strings.TrimPrefix(strings.TrimSpace(s), from), to)
		return 0, 0, true, &mistake{"duration", fmt.Sprintf("%s has no unit", quote(s)),
			fmt.Sprintf("write %sm%s%sm for minutes or %sh%s%sh for hours", from, sep, to, from, sep, to)}
	}
	if hi, err = Duration(to); err != nil {
		return 0, 0, true, err
	}
	if number.MatchString(from) {
		m := single.FindStringSubmatch(to)
		if m == nil {
			return 0, 0, true, &mistake{"duration", fmt.Sprintf("%s in %s has no unit", quote(from), quote(s)),
				"write both ends with a unit, like 45m-1h30m"}
		}
		from += m[1]
	}
	if lo, err = Duration(from); err != nil {
		return 0, 0, true, err
	}
	if lo > hi {
		return 0, 0, true, &mistake{"range", fmt.Sprintf("%s goes from long to short", quote(s)),
			fmt.Sprintf("write the shortest first, like %s-%s", to, from)}
	}
	return lo, hi, true, nil
}
