package main

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/planfile/planfiletest"
	"example.org/kettledrum/plan/review"
	"example.org/kettledrum/plan/run"
)

// read returns a file of the kitchen.
func (k *kitchen) read(name string) string {
	k.t.Helper()
	data, err := os.ReadFile(filepath.Join(k.dir, name))
	if err != nil {
		k.t.Fatal(err)
	}
	return string(data)
}

// files are the names of the plan files and what lies beside them.
func (k *kitchen) files() (out []string) {
	k.t.Helper()
	entries, err := os.ReadDir(k.dir)
	if err != nil {
		k.t.Fatal(err)
	}
	for _, e := range entries {
		if !e.IsDir() {
			out = append(out, e.Name())
		}
	}
	return out
}

// decoded is the plan that the kitchen's file has.
func (k *kitchen) decoded(text []byte) *plan.Plan {
	k.t.Helper()
	p, ps := planfile.Decode(text, planfile.Options{Now: k.now, Local: time.UTC})
	if ps.HasErrors() {
		k.t.Fatal(ps)
	}
	return p
}

// TestApplyOddFiles: a dinner is cooked from each of many oddly written plans, and took
// half as long again. What it proposes is written: only the lengths change, the file as it
// was lies beside it, and a second time nothing changes.
func TestApplyOddFiles(t *testing.T) {
	odds := planfiletest.Odds()
	if len(odds) < 50 {
		t.Fatalf("only %d files", len(odds))
	}
	for _, o := range odds {
		t.Run(o.Name, func(t *testing.T) {
			k := newKitchen(t).in(t)
			k.plan("odd.yaml", string(o.Text()))
			k.cook("odd.yaml", 17, allTake(1.5))
			p := k.decoded(o.Text())
			var steps []*plan.Step
			for i := range p.Steps {
				if !p.Steps[i].Length.Elastic {
					steps = append(steps, &p.Steps[i])
				}
			}
			slices.SortFunc(steps, func(a, b *plan.Step) int {
				return slices.Compare([]int{a.Pos.Line, a.Pos.Col}, []int{b.Pos.Line, b.Pos.Col})
			})
			var want []string
			for _, s := range steps {
				took := time.Duration(float64(s.Length.Likely) * 1.5).Round(time.Minute)
				want = append(want, planfile.WriteLength(review.Propose(s.Length, []time.Duration{took})))
			}
			k.review(0, "odd.yaml", "--apply")
			if diff := cmp.Diff(string(o.With(want)), k.read("odd.yaml")); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if k.read("odd.yaml") == string(o.Text()) {
				t.Error("nothing changed")
			}
			if k.read("odd.yaml.bak") != string(o.Text()) {
				t.Error("the backup is not the file as it was")
			}
			applied := k.read("odd.yaml")
			if said := k.review(0, "odd.yaml", "--apply"); said != "odd.yaml: nothing to change\n" || k.read("odd.yaml") != applied {
				t.Errorf("a second time: %s", said)
			}
			if diff := cmp.Diff([]string{"odd.yaml", "odd.yaml.bak"}, k.files()); diff != "" {
				t.Errorf("files (-want +got):\n%s", diff)
			}
		})
	}
}

// TestApplyGoesOn: dinners that are planned with what those before proposed count
// together with them: the proposal is that of all of them for the plan as it first was,
// not a proposal upon a proposal. What the cook changes by hand begins anew.
func TestApplyGoesOn(t *testing.T) {
	text := tuesday(t)
	k := newKitchen(t).in(t)
	k.plan("tuesday.yaml", text)
	const roast = "lemon-chicken/roast-the-thighs"
	is := func() plan.Length {
		p := k.decoded([]byte(k.read("tuesday.yaml")))
		return p.Steps[p.StepIndex(roast)].Length
	}
	prior := is()
	var took []time.Duration
	for n, minutes := range []string{"48m", "44m", "52m", "47m"} {
		k.cook("tuesday.yaml", 1+2*n, truly(t, roast+" "+minutes))
		d, err := planfile.Duration(minutes)
		if err != nil {
			t.Fatal(err)
		}
		took = append(took, d)
		if n == 1 {
			continue // two dinners with one plan
		}
		k.review(0, "--apply")
		if want := review.Propose(prior, took); is() != want {
			t.Errorf("after %v: %v, want %v", took, is(), want)
		}
		k.review(0, "tuesday.yaml", "--apply")
		if want := review.Propose(prior, took); is() != want {
			t.Errorf("applied twice after %v: %v, want %v", took, is(), want)
		}
	}
	k.plan("tuesday.yaml", strings.Replace(k.read("tuesday.yaml"), planfile.WriteLength(is()), "60m", 1))
	hour := is()
	k.cook("tuesday.yaml", 20, truly(t, roast+" 50m"))
	k.review(0, "--apply")
	if want := review.Propose(hour, []time.Duration{50 * time.Minute}); is() != want {
		t.Errorf("after a change by hand: %v, want %v", is(), want)
	}
	if diff := cmp.Diff([]string{"tuesday.yaml", "tuesday.yaml.2.bak", "tuesday.yaml.3.bak", "tuesday.yaml.4.bak", "tuesday.yaml.bak"}, k.files()); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
}

// TestApplyRefuses: a plan that is no longer the one that was cooked is left as it is,
// and nothing beside it.
func TestApplyRefuses(t *testing.T) {
	text := tuesday(t)
	for _, c := range []struct {
		name, old, new string
		code           int
		want           []string
	}{
		{"another-length", "35m (30m-40m)", "50m", 1, []string{
			"tuesday.yaml:15:9: Lemon chicken: Roast the thighs takes 50m now, and took 35m (30m-40m) in the plan that was cooked",
			"is no longer the plan that was cooked: it is left as it is"}},
		{"another-heat", "425F", "400F", 1, []string{"is no longer the step that was cooked: another heat, sign, or hands"}},
		{"another-name", "do: Roast the thighs", "do: Roast the chicken", 1, []string{"there is no step lemon-chicken/roast-the-thighs any more"}},
		{"no-plan", "title:", "titel:", 1, []string{"unknown key `titel`", "cannot be used"}},
		{"anchor", "takes: 35m", "takes: &roast 35m", 1, []string{"gives the value a name"}},
		{"a-note-more", "guests: 4", "guests: 4 # or five", 0, []string{"1 length is changed"}},
		{"another-dish", "  - name: Rice", "  - {name: Salad, steps: [\"Toss, 5m\"]}\n  - name: Rice", 0, []string{"1 length is changed"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := newKitchen(t).in(t)
			k.plan("tuesday.yaml", text)
			k.cook("tuesday.yaml", 17, truly(t, "lemon-chicken/roast-the-thighs 48m"))
			changed := strings.Replace(text, c.old, c.new, 1)
			k.plan("tuesday.yaml", changed)
			said := k.review(c.code, "tuesday.yaml", "--apply")
			for _, w := range c.want {
				if !strings.Contains(said, w) {
					t.Errorf("%q is not in:\n%s", w, said)
				}
			}
			if c.code == 0 {
				return
			}
			if k.read("tuesday.yaml") != changed || len(k.files()) != 1 {
				t.Errorf("the file was touched, or something lies beside it: %v", k.files())
			}
		})
	}
}

// TestApplyBuiltIn: the example in the program cannot be written.
func TestApplyBuiltIn(t *testing.T) {
	t.Parallel()
	c := &chosen{all: []pastRun{{was: &run.PlanCopy{Name: builtIn().key()}}}}
	_, err := c.planOf()
	if exitCode(err) != exitUse || !strings.Contains(err.Error(), "built-in example") {
		t.Errorf("error %v", err)
	}
}

// TestReplaceFile: link, mode and name stay; the file as it was is kept under a name that was free.
func TestReplaceFile(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	real := filepath.Join(dir, "real.yaml")
	if err := os.WriteFile(real, []byte("one"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(real, 0o664); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(t.TempDir(), "link.yaml")
	if err := os.Symlink(real, link); err != nil {
		t.Fatal(err)
	}
	for n, want := range []string{real + ".bak", real + ".2.bak"} {
		was, text := []byte("one"), []byte("two, and longer")
		if n == 1 {
			was, text = text, []byte("3")
		}
		backup, err := replaceFile(link, was, text)
		if err != nil || backup != want {
			t.Fatalf("backup %s, %v; want %s", backup, err, want)
		}
		got, _ := os.ReadFile(real)
		kept, _ := os.ReadFile(backup)
		if !bytes.Equal(got, text) || !bytes.Equal(kept, was) {
			t.Errorf("file %q, backup %q", got, kept)
		}
		for _, name := range []string{real, backup} {
			if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o664 {
				t.Errorf("%s: %v, %v", name, info.Mode(), err)
			}
		}
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is no link any more: %v", err)
	}
}

// TestReplaceFileChangedMeanwhile: what somebody else wrote is not overwritten, and no
// backup of what it was before stays.
func TestReplaceFileChangedMeanwhile(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "plan.yaml")
	if err := os.WriteFile(path, []byte("theirs"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := replaceFile(path, []byte("ours"), []byte("new"))
	if exitCode(err) != exitUse || !strings.Contains(err.Error(), "it was changed meanwhile") {
		t.Errorf("error %v", err)
	}
	untouched(t, path, "theirs")
}

// untouched checks that a file holds a text and lies alone in its folder.
func untouched(t *testing.T, path, want string) {
	t.Helper()
	got, err := os.ReadFile(path)
	if err != nil || string(got) != want {
		t.Errorf("the file holds %q, %v; want %q", got, err, want)
	}
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 {
		t.Errorf("beside it lie %v, %v", entries, err)
	}
}
