package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func sample(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata/projects", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// What is read is what stands in the file, with either kind of line ends.
func TestReadsWhatIsThere(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		want    project
		horizon int
	}{
		{
			name: "work1.sm",
			want: project{
				duration: []int{0, 3, 2, 2, 1, 0},
				demand:   [][]int{{0, 0}, {2, 0}, {1, 0}, {1, 1}, {1, 0}, {0, 0}},
				lags:     []lag{{0, 1, 0}, {0, 2, 0}, {0, 3, 0}, {1, 5, 3}, {2, 4, 2}, {3, 5, 2}, {4, 5, 1}},
				capacity: []int{2, 1},
			},
			horizon: 8, // as the file says
		},
		{
			name: "LAGS1.SCH",
			want: project{
				duration: []int{0, 4, 3, 0},
				demand:   [][]int{{0}, {1}, {1}, {0}},
				lags:     []lag{{0, 1, 0}, {0, 2, 0}, {1, 2, 2}, {1, 3, 4}, {2, 3, 3}, {2, 1, -5}},
				capacity: []int{1},
			},
			horizon: 7, // 4 and 3; no lag is larger
		},
		{
			name: "LAGS3.SCH",
			want: project{
				duration: []int{0, 2, 0},
				demand:   [][]int{{0, 0}, {1, 3}, {0, 0}},
				lags:     []lag{{0, 1, 0}, {1, 2, 2}},
				capacity: []int{1, 2},
			},
			horizon: 2,
		},
	} {
		text := strings.ReplaceAll(sample(t, c.name), "\r\n", "\n")
		for ends, text := range map[string]string{"lf": text, "crlf": strings.ReplaceAll(text, "\n", "\r\n"), "no-last": strings.TrimSpace(text)} {
			t.Run(c.name+"-"+ends, func(t *testing.T) {
				t.Parallel()
				p, err := parserFor(c.name)(c.name, text)
				if err != nil {
					t.Fatal(err)
				}
				if d := cmp.Diff(&c.want, p, cmp.AllowUnexported(project{}, lag{})); d != "" {
					t.Errorf("(-want +got):\n%s", d)
				}
				if got := p.horizon(); got != c.horizon {
					t.Errorf("horizon %d, want %d", got, c.horizon)
				}
			})
		}
	}
}

// Every mistake is answered with its line, what is wrong and what would be right.
func TestBrokenFiles(t *testing.T) {
	t.Parallel()
	const sm, sch = "work1.sm", "LAGS1.SCH"
	for _, c := range []struct{ name, file, old, new, want string }{
		{"sm-no-jobs", sm, "jobs (incl.", "men (incl.", `work1.sm:34: the file ends, want the header lines "jobs (incl. supersource/sink )" and "- renewable"`},
		{"sm-jobs-word", sm, ":  6\n", ":  six\n", `work1.sm:5: "six" is no whole number, want a number of jobs`},
		{"sm-jobs-none", sm, ":  6\n", ":\n", `work1.sm:5: nothing after the colon, want a number of jobs`},
		{"sm-one-job", sm, ":  6\n", ":  1\n", `work1.sm:5: 1, want a number of jobs from 2 to 20000`},
		{"sm-no-arcs", sm, "PRECEDENCE", "PRECEDING", `work1.sm:34: the file ends, want the section PRECEDENCE RELATIONS:`},
		{"sm-other-job", sm, "   4        1          1           6", "   7        1          1           6", `work1.sm:17: the row of job 7, want that of job 4`},
		{"sm-modes", sm, "   4        1          1           6", "   4        2          1           6", `work1.sm:17: job 4 has 2 modes, want 1: jobs of several modes are not read`},
		{"sm-successors", sm, "   4        1          1           6", "   4        1          2           6", `work1.sm:17: job 4 has 1 successors listed, its row says 2`},
		{"sm-successor-none", sm, "   4        1          1           6", "   4        1          1           9", `work1.sm:17: successor 9 of job 4, want another job from 1 to 6`},
		{"sm-itself", sm, "   4        1          1           6", "   4        1          1           4", `work1.sm:17: successor 4 of job 4, want another job from 1 to 6`},
		{"sm-short-row", sm, "  3      1     2       1    0", "  3      1     2       1", `work1.sm:26: 4 numbers, want 5: job, mode 1, duration, and the amount of each resource`},
		{"sm-negative", sm, "  3      1     2       1    0", "  3      1    -2       1    0", `work1.sm:26: -2 for job 3, want no negative duration or amount`},
		{"sm-mode-two", sm, "  3      1     2       1    0", "  3      2     2       1    0", `work1.sm:26: mode 2 of job 3, want mode 1: jobs of several modes are not read`},
		{"sm-capacity", sm, "    2    1\n", "    2\n", `work1.sm:33: 1 numbers, want 2: the capacity of each resource`},
		{"sm-no-capacity", sm, "  R 1  R 2\n    2    1\n", "", `work1.sm:32: the file ends, want the capacity of each resource`},
		{"sm-huge", sm, "  3      1     2       1    0", "  3      1     2000000 1    0", `work1.sm:26: 2000000 is out of range, want at most 1000000 either way`},

		{"sch-empty", sch, sample(t, sch), "", `LAGS1.SCH:1: 0 numbers, want the numbers of jobs and of resources, and two zeros`},
		{"sch-head", sch, "2\t1\t0\t0\r\n0", "2\t1\t0\r\n0", `LAGS1.SCH:1: 3 numbers, want the numbers of jobs and of resources, and two zeros`},
		{"sch-kinds", sch, "2\t1\t0\t0\r\n0", "2\t1\t1\t0\r\n0", `LAGS1.SCH:1: resources of other kinds (1, 0), want 0 and 0: only renewable ones are read`},
		{"sch-jobs", sch, "2\t1\t0\t0\r\n0", "-1\t1\t0\t0\r\n0", `LAGS1.SCH:1: -1 jobs, want 0 to 19998`},
		{"sch-too-many", sch, "2\t1\t0\t0\r\n0", "2\t5000\t0\t0\r\n0", `LAGS1.SCH:1: 5000 resources, want 0 to 1000`},
		{"sch-bracket", sch, "[-5]", "-5", `LAGS1.SCH:4: lag "-5", want a number in square brackets, like [3]`},
		{"sch-lag-word", sch, "[-5]", "[x]", `LAGS1.SCH:4: "x" is no whole number, want a lag like [3]`},
		{"sch-lag-missing", sch, "\t[-5]", "", `LAGS1.SCH:4: 3 words after the number of arcs, want 2 targets and 2 lags`},
		{"sch-target", sch, "2\t1\t2\t3\t1", "2\t1\t2\t3\t4", `LAGS1.SCH:4: target 4 of job 2, want another job from 0 to 3`},
		{"sch-modes", sch, "2\t1\t2\t3\t1", "2\t3\t2\t3\t1", `LAGS1.SCH:4: job 2 has 3 modes, want 1: jobs of several modes are not read`},
		{"sch-order", sch, "2\t1\t2\t3\t1", "3\t1\t2\t3\t1", `LAGS1.SCH:4: the row of job 3, want that of job 2`},
		{"sch-ends", sch, "\r\n3\t1\t0\t0\r\n1\r\n", "\r\n3\t1\t0\t0\r\n", `LAGS1.SCH:9: the file ends, want the capacity of each resource`},
		{"sch-capacity", sch, "\r\n1\r\n", "\r\n-1\r\n", `LAGS1.SCH:10: capacity -1, want none below 0`},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			good := sample(t, c.file)
			text := strings.Replace(good, c.old, c.new, 1)
			if text == good {
				t.Fatalf("%q does not stand in %s", c.old, c.file)
			}
			_, err := parserFor(c.file)(c.file, text)
			if err == nil || !strings.HasPrefix(err.Error(), c.want) {
				t.Errorf("got  %v\nwant %s", err, c.want)
			}
		})
	}
}

func TestUnknownFormat(t *testing.T) {
	t.Parallel()
	_, err := readProject("plan.mm")
	if want := "plan.mm: unknown format, want a name that ends in .sm or .sch"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// Times that would not fit into the engine's ticks are refused.
func TestTooLong(t *testing.T) {
	t.Parallel()
	p := newProject(200, 0)
	for j := range p.duration {
		p.duration[j] = maxNumber
	}
	err := p.fits("long.sm")
	if want := "long.sm: durations and lags add up to 200000000, want at most 134217728"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func FuzzSM(f *testing.F) { fuzz(f, "x.sm", "work1.sm") }

func FuzzSCH(f *testing.F) {
	fuzz(f, "x.sch", "LAGS1.SCH", "LAGS2.SCH", "LAGS3.SCH", "LAGS10.SCH")
}

// Any bytes give a project whose parts fit together or an error that names the
// file, and the kind of line ends makes no difference.
func fuzz(f *testing.F, name string, samples ...string) {
	for _, s := range samples {
		f.Add(sample(f, s))
	}
	f.Fuzz(func(t *testing.T, text string) {
		p, err := parserFor(name)(name, text)
		if err != nil {
			if !strings.HasPrefix(err.Error(), name+":") {
				t.Errorf("an error without a place: %v", err)
			}
			return
		}
		jobs := len(p.duration)
		if jobs < 2 || len(p.demand) != jobs {
			t.Fatalf("%d jobs, %d with demands", jobs, len(p.demand))
		}
		for j, d := range p.demand {
			if len(d) != len(p.capacity) {
				t.Errorf("job %d has %d demands for %d resources", j, len(d), len(p.capacity))
			}
		}
		for _, l := range p.lags {
			if l.from < 0 || l.from >= jobs || l.to < 0 || l.to >= jobs || l.from == l.to {
				t.Errorf("lag %+v of %d jobs", l, jobs)
			}
		}
		if h := p.horizon(); h < 0 || h > maxHorizon {
			t.Errorf("horizon %d", h)
		}
		if !strings.Contains(text, "\r") {
			q, err := parserFor(name)(name, strings.ReplaceAll(text, "\n", "\r\n"))
			if err != nil {
				t.Fatalf("with CRLF: %v", err)
			}
			if d := cmp.Diff(p, q, cmp.AllowUnexported(project{}, lag{})); d != "" {
				t.Errorf("with CRLF:\n%s", d)
			}
		}
	})
}
