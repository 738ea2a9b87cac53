package run_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan/run"
)

// told is the supper, as planned until the first of the events, as it looks at a
// time: when the courses come, what is broken, what the cues say that have one of
// the beginnings.
func told(t *testing.T, now string, prefixes string, events ...string) (serves, breaks, cues string) {
	t.Helper()
	s, from := newSupper(), "18:22"
	if len(events) > 0 {
		from = events[0][:5]
	}
	m := run.Conduct(s.run(t, s.upTo(from, events...)...), s.At(now))
	var out [3][]string
	for _, at := range m.Projection.Serves {
		out[0] = append(out[0], hm(at))
	}
	for _, b := range m.Breaks {
		out[1] = append(out[1], string(b.Kind)+": "+b.Text)
	}
	for _, c := range m.Cues {
		for p := range strings.FieldsSeq(prefixes) {
			if strings.HasPrefix(c.ID, p) {
				out[2] = append(out[2], c.Class.String()+" "+c.ID+": "+c.Text)
			}
		}
	}
	return strings.Join(out[0], " "), strings.Join(out[1], "\n"), strings.Join(out[2], "\n")
}

// By 18:22 the roast is out and rests, the dough proves; the oven is set for the
// flatbreads at 18:40, carving is at 18:50, Main at 19:00, Sweet at 19:45.
func TestLive(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		events []string
		now    string
		serves string
		breaks string
		cues   string // those of what is held, failed or to be started
	}{
		{"as-planned", nil, "18:30", "19:00 19:45", "", ""},
		{
			// The first course: the whole dinner moves, and what is made waits.
			"guests-late", []string{"18:25 held Main 30m"}, "18:30", "19:30 20:15",
			"keep: Carve · Lamb is kept 10 min too long for: Main\nkeep: Bake · Flatbreads is kept 8 min too long for: Main\n" +
				"length: Cool · Pears is 5 min longer than it may be", "",
		},
		{
			// The pears may cool for 40 minutes, from 19:30 on.
			"held-later-course", []string{"18:25 held Sweet 20m"}, "18:30", "19:00 20:05", "", "",
		},
		{"held-twice", []string{"18:25 held Sweet 20m", "18:26 held Sweet 10m"}, "18:30", "19:00 20:15", "length: Cool · Pears is 5 min longer than it may be", ""},
		{
			"held-until-released", []string{"18:25 held Sweet"}, "20:03", "19:00 20:15",
			"length: Cool · Pears is 5 min longer than it may be", "note held:Sweet: Sweet waits until you release it · taken for 20:15",
		},
		{
			// Carving is the last that is done: not while the guests talk, and at once when they
			// are through. The flatbreads at 18:40 are further off than that.
			"held-until-released-nobody-carves", []string{"18:25 held Main", "18:40 started flatbreads/bake", "18:52 finished flatbreads/bake"}, "18:55", "19:10 19:55",
			"liking: Bake · Flatbreads is kept 8 min too long for: Main", "note held:Main: Main waits until you release it · taken for 19:10",
		},
		{
			"released-and-carved", []string{"18:25 held Main", "18:40 started flatbreads/bake", "18:52 finished flatbreads/bake", "18:56 released Main"}, "18:56", "19:06 19:46",
			"liking: Bake · Flatbreads is kept 4 min too long for: Main", "act start:lamb/carve: Carve · Lamb",
		},
		{"released", []string{"18:25 held Sweet 40m", "18:35 released Sweet"}, "18:38", "19:00 19:45", "", ""},
		{"hold-undone", []string{"18:25 held Main 30m", "18:26 undone 12"}, "18:30", "19:00 19:45", "", ""},
		{
			// The breads come out and the lamb is carved when she is back.
			"away-past-a-start", []string{"18:45 away Ines 15m"}, "18:46", "19:10 19:50", "", "",
		},
		{
			// Eight minutes of carving are left when she is back.
			"away-from-what-goes", []string{"18:52 away Ines 15m"}, "18:53", "19:15 19:55",
			"liking: Bake · Flatbreads is kept 13 min too long for: Main", "",
		},
		{"away-and-back-early", []string{"18:52 away Ines 15m", "18:58 back Ines"}, "18:59", "19:06 19:46", "liking: Bake · Flatbreads is kept 4 min too long for: Main", ""},
		{"away-and-back-at-once", []string{"18:52 away Ines 10m", "18:52 back Ines"}, "18:53", "19:00 19:45", "", ""},
		{
			// Nobody knows when she is back: in ten minutes, and ten more.
			"away-until-back-from-what-goes", []string{"18:52 away Ines"}, "19:03", "19:20 20:00",
			"liking: Bake · Flatbreads is kept 18 min too long for: Main", "",
		},
		{"back-from-an-open-absence", []string{"18:52 away Ines", "18:58 back Ines"}, "18:59", "19:06 19:46", "liking: Bake · Flatbreads is kept 4 min too long for: Main", ""},
		{
			// What is paused while she is away stands still once.
			"away-and-paused", []string{"18:52 away Ines 5m", "18:54 paused lamb/carve", "19:00 resumed lamb/carve"}, "19:01", "19:08 19:48",
			"liking: Bake · Flatbreads is kept 6 min too long for: Main", "",
		},
		{
			// Carving takes ten minutes and five, and stands still for ten.
			"away-and-prolonged", []string{"18:52 away Ines 10m", "18:53 prolonged lamb/carve 5m"}, "18:54", "19:15 19:55",
			"liking: Bake · Flatbreads is kept 13 min too long for: Main", "",
		},
		{"away-and-done-anyway", []string{"18:52 away Ines 15m", "18:55 finished lamb/carve"}, "18:56", "19:07 19:47", "liking: Carve · Lamb is kept 7 min too long for: Main\nliking: Bake · Flatbreads is kept 5 min too long for: Main", ""},
		{"away-undone", []string{"18:52 away Ines 15m", "18:53 undone 16"}, "18:54", "19:00 19:45", "", ""},
		{"back-early", []string{"18:45 away Ines 15m", "18:48 back Ines"}, "18:49", "19:00 19:45", "", ""},
		{
			"oven-fails", []string{"18:25 failed oven"}, "18:30", "19:00 19:45",
			"oven: Bake · Flatbreads: the oven has failed", "",
		},
		{"oven-works-again", []string{"18:25 failed oven", "18:27 works oven"}, "18:30", "19:00 19:45", "", ""},
		{
			"oven-fails-with-something-in-it", []string{"18:41 failed oven"}, "18:45", "19:00 19:45",
			"oven: Bake · Flatbreads: the oven has failed",
			"late failed:flatbreads/bake: Bake · Flatbreads · the oven has failed: put it elsewhere, or begin again",
		},
		{
			"burner-fails", []string{"19:12 failed small pears/poach"}, "19:14", "19:00 19:45",
			"burner: Poach · Pears: its place has failed, it has no other yet",
			"late failed:pears/poach: Poach · Pears · its burner has failed: put it on another",
		},
		{"burner-fails-and-it-is-moved", []string{"19:12 failed small pears/poach", "19:13 put pears/poach large"}, "19:14", "19:00 19:45", "", ""},
		{
			// Seven minutes of it are left when it goes on.
			"paused", []string{"18:53 paused lamb/carve"}, "18:58", "19:05 19:45",
			"liking: Bake · Flatbreads is kept 3 min too long for: Main", "",
		},
		{"paused-and-resumed", []string{"18:53 paused lamb/carve", "18:55 resumed lamb/carve"}, "18:58", "19:02 19:45", "", ""},
		{"held-when-it-is-due", []string{"18:58 finished lamb/carve", "19:02 held Main 10m"}, "19:03", "19:12 19:57", "liking: Bake · Flatbreads is kept 10 min too long for: Main\nliking: Carve · Lamb is kept 9 min too long for: Main", ""},
		{
			"begun-again", []string{"18:45 redone flatbreads/bake"}, "18:46", "19:00 19:45", "",
			"act start:flatbreads/bake: Put in: Bake · Flatbreads · oven at 230 °C",
		},
		{
			// Kneading takes 15 minutes, proving an hour, baking 12.
			"begun-again-from-the-start", []string{"18:45 redone flatbreads/knead"}, "18:46", "20:13 20:53",
			"keep: Carve · Lamb is kept 53 min too long for: Main\nlate: Main at 20:13, 53 min later than it may be\n" +
				"late: Sweet at 20:53, 48 min later than it may be\nlength: Cool · Pears is 43 min longer than it may be",
			"act start:flatbreads/knead: Knead · Flatbreads",
		},
		{"dropped", []string{"18:38 dropped flatbreads"}, "18:46", "19:00 19:45", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			serves, breaks, cues := told(t, c.now, "held: failed: start:", c.events...)
			if diff := cmp.Diff([]string{c.serves, c.breaks, c.cues}, []string{serves, breaks, cues}); diff != "" {
				t.Errorf("serves, breaks, cues: %s", diff)
			}
		})
	}
}

// Guests who are late come so much later than they were asked for, however late the
// kitchen is: it has that time too.
func TestLateGuestsAreCountedFromWhenTheyWereAsked(t *testing.T) {
	t.Parallel()
	s := newSupper()
	st, now := s.run(t), s.At("17:50")
	late := *st.Timetable
	late.Serves = slices.Clone(late.Serves)
	late.Serves[0] = late.Serves[0].Add(10 * time.Minute)
	for _, e := range []run.Event{
		{Kind: run.Adopted, Timetable: &late, At: now},
		{Kind: run.Held, Course: s.Plan.Courses[0].Name, By: 20 * time.Minute, At: now},
	} {
		next, err := st.Apply(e)
		if err != nil {
			t.Fatal(err)
		}
		st = next
	}
	if got, want := st.Plan.Asked(0), s.Plan.Asked(0).Add(20*time.Minute); !got.Equal(want) {
		t.Errorf("asked for at %v, want %v", got, want)
	}
}
