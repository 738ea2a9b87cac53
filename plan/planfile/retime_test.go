package planfile_test

import (
	"bytes"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planfile/planfiletest"
)

var options = planfile.Options{Now: time.Date(2026, 10, 1, 8, 0, 0, 0, time.UTC), Local: time.UTC}

// uncertain returns the steps whose lengths may change, in the order of the file.
func uncertain(p *plan.Plan) (out []*plan.Step) {
	for i := range p.Steps {
		if !p.Steps[i].Length.Elastic {
			out = append(out, &p.Steps[i])
		}
	}
	slices.SortFunc(out, func(a, b *plan.Step) int {
		return slices.Compare([]int{a.Pos.Line, a.Pos.Col}, []int{b.Pos.Line, b.Pos.Col})
	})
	return out
}

// TestRetimeOddFiles: of oddly written plans the lengths change and not a byte else, and
// a second time nothing does.
func TestRetimeOddFiles(t *testing.T) {
	t.Parallel()
	all := planfiletest.Odds()
	if len(all) < 50 {
		t.Errorf("only %d files", len(all))
	}
	for _, o := range all {
		t.Run(o.Name, func(t *testing.T) {
			t.Parallel()
			p, ps := planfile.Decode(o.Text(), options)
			if ps.HasErrors() {
				t.Fatalf("%s", planfile.Format(o.Name, o.Text(), ps))
			}
			steps := uncertain(p)
			if n := len(o.Lengths()); n != len(steps) || n == 0 {
				t.Fatalf("%d lengths are marked, the plan has %d", n, len(steps))
			}
			for name, length := range map[string]func(plan.Length) plan.Length{
				"longer": func(l plan.Length) plan.Length {
					return plan.Length{Shortest: l.Shortest + time.Minute, Likely: l.Likely + 3*time.Minute, Longest: l.Longest + 94*time.Minute}
				},
				"point": func(l plan.Length) plan.Length {
					d := l.Likely.Truncate(time.Minute) + 7*time.Minute
					return plan.Length{Shortest: d, Likely: d, Longest: d}
				},
			} {
				lengths, want := map[string]plan.Length{}, []string(nil)
				for _, s := range steps {
					lengths[s.ID] = length(s.Length)
					want = append(want, planfile.WriteLength(lengths[s.ID]))
				}
				got, ps := planfile.Retime(o.Text(), options, lengths)
				if ps.HasErrors() {
					t.Fatalf("%s: %s", name, planfile.Format(o.Name, o.Text(), ps))
				}
				if !bytes.Equal(got, o.With(want)) {
					t.Errorf("%s (-want +got):\n%s", name, cmp.Diff(string(o.With(want)), string(got)))
				}
				again, ps := planfile.Retime(got, options, lengths)
				if ps.HasErrors() || !bytes.Equal(again, got) {
					t.Errorf("%s, again: %v (-was +is):\n%s", name, ps, cmp.Diff(string(got), string(again)))
				}
				same, ps := planfile.Retime(o.Text(), options, nil)
				if ps.HasErrors() || !bytes.Equal(same, o.Text()) {
					t.Errorf("without a length: %v, changed", ps)
				}
			}
		})
	}
}

// TestRetimeOneOfSeveral: only the length that is asked for changes.
func TestRetimeOneOfSeveral(t *testing.T) {
	t.Parallel()
	for _, o := range planfiletest.Odds() {
		p, ps := planfile.Decode(o.Text(), options)
		if ps.HasErrors() {
			t.Fatal(ps)
		}
		steps := uncertain(p)
		for k, s := range steps {
			l := plan.Length{Shortest: 50 * time.Minute, Likely: 61 * time.Minute, Longest: 2 * time.Hour}
			got, ps := planfile.Retime(o.Text(), options, map[string]plan.Length{s.ID: l})
			as := o.Lengths()
			as[k] = planfile.WriteLength(l)
			if want := string(o.With(as)); ps.HasErrors() || string(got) != want {
				t.Errorf("%s %s: %v (-want +got):\n%s", o.Name, s.ID, ps, cmp.Diff(want, string(got)))
			}
		}
	}
}

// TestRetimeRefuses: what cannot be changed in place is refused with its place, and
// nothing is returned.
func TestRetimeRefuses(t *testing.T) {
	t.Parallel()
	const head = "kettledrum: 1\ntable: 2026-10-17 19:00\nzone: UTC\ndishes:\n  - name: Soup\n    steps:\n"
	long := plan.Length{Shortest: 2 * time.Minute, Likely: 2 * time.Minute, Longest: 2 * time.Minute}
	for _, c := range []struct{ name, text, step, want string }{
		{"anchor", head + "      - do: Boil\n        takes: &long 30m\n", "soup/boil", "line 8: \"&long\""},
		{"alias", head + "      - do: Boil\n        takes: &long 30m\n      - do: Mash\n        takes: *long\n", "soup/mash", "has no anchors"},
		{"no-plan", "titel: x\n", "soup/boil", "unknown key"},
		{"no-such-step", head + "      - Boil, 30m\n", "soup/mash", "there is no step \"soup/mash\""},
		{"waits", head + "      - Boil, 30m\n      - {do: Cool, waits: 10m to 30m}\n      - Serve, 5m\n", "soup/cool", "line 8"},
		{"comma-escaped", head + "      - \"Boil, slowly\\x2c 30m\"\n", "soup/boil-slowly", "cannot be replaced alone; write 2m yourself"},
		{"too-short-for-what-it-has", head + "      - {do: Boil, takes: 30m, remind: \"5m before end: warm the plates\"}\n", "soup/boil", "with 2m the plan is wrong: line 7:"},
	} {
		got, ps := planfile.Retime([]byte(c.text), options, map[string]plan.Length{c.step: long})
		said := ""
		for _, p := range ps {
			said += "line " + strconv.Itoa(p.Pos.Line) + ": " + p.Text + "; " + strings.Join(p.Hints, "; ") + "\n"
		}
		if got != nil || !ps.HasErrors() || !strings.Contains(said, c.want) {
			t.Errorf("%s: got %q, said %q, want %q", c.name, got, said, c.want)
		}
	}
}

// FuzzRetime: whatever the plan and the length, what is returned is a plan in which that
// step has it, and to set it again changes nothing.
func FuzzRetime(f *testing.F) {
	for _, o := range planfiletest.Odds() {
		f.Add(o.Text(), uint8(0), uint16(37))
	}
	f.Fuzz(func(t *testing.T, src []byte, which uint8, minutes uint16) {
		p, ps := planfile.Decode(src, options)
		if ps.HasErrors() {
			return
		}
		steps := uncertain(p)
		if len(steps) == 0 {
			return
		}
		s := steps[int(which)%len(steps)]
		d := time.Duration(1+int(minutes)) * time.Minute
		l := plan.Length{Shortest: d, Likely: d, Longest: d + time.Duration(minutes%7)*time.Minute}
		got, ps := planfile.Retime(src, options, map[string]plan.Length{s.ID: l})
		if got == nil {
			if !ps.HasErrors() {
				t.Fatal("neither a text nor a problem")
			}
			return
		}
		is, ps := planfile.Decode(got, options)
		if ps.HasErrors() || is.Steps[is.StepIndex(s.ID)].Length != l {
			t.Fatalf("%v, %s", ps, got)
		}
		again, ps := planfile.Retime(got, options, map[string]plan.Length{s.ID: l})
		if ps.HasErrors() || !bytes.Equal(again, got) {
			t.Fatalf("again: %v, %q, was %q", ps, again, got)
		}
	})
}
