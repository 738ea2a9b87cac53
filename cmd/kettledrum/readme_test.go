package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan/planfile"
	"example.org/kettledrum/plan/safety"
	"example.org/kettledrum/sounds"
	"example.org/kettledrum/tui"
	"example.org/kettledrum/tui/theme"
)

const readme = "../../README.md"

// The README shows what the program says: its plan is run through the real
// command, its table of keys is the one on the screen and its reference of the
// plan file is made from what the decoder knows. -update rewrites those parts.
func TestReadmeIsTrue(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	blocks := regexp.MustCompile("(?s)```yaml\n(.*?)```").FindAllStringSubmatch(text, -1)
	if len(blocks) != 2 {
		t.Fatal("the README has no plan and mishap script")
	}
	m := blocks[0]
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("tuesday.yaml", m[1])
	check := say(t, dir, 0, "check", "tuesday.yaml")
	plan := say(t, dir, 0, "plan", "tuesday.yaml")
	shop := say(t, dir, 0, "shop", "tuesday.yaml")
	walk := say(t, dir, 0, "rehearse", "tuesday.yaml", "--serve", "2026-12-01 18:30", "--walk")
	write("trouble.yaml", blocks[1][1])
	trouble := say(t, dir, 0, "rehearse", "tuesday.yaml", "--serve", "2026-12-01 18:30", "--mishaps", "trouble.yaml")
	write("tuesday.yaml", strings.Replace(m[1], "title:", "titel:", 1))
	broken := say(t, dir, 1, "check", "tuesday.yaml")

	got := part(t, text, "check", check)
	got = part(t, got, "broken", broken)
	got = part(t, got, "plan", plan)
	got = part(t, got, "shop", shop)
	got = part(t, got, "walk", beginning(walk, 14))
	looked, err := os.ReadFile(filepath.Join(here, "testdata", "review-unjudged.txt")) // what TestReviewGolden holds
	if err != nil {
		t.Fatal(err)
	}
	got = part(t, got, "review", fmt.Sprintf("```console\n$ %s review\n%s```\n", program, looked))
	got = part(t, got, "keys", tui.KeyTable())
	got = part(t, got, "foods", safety.FoodTable())
	got = part(t, got, "cautions", safety.CodeTable())
	got = part(t, got, "trouble", mishapLines(trouble))
	got = part(t, got, "debrief", debriefLines(trouble))
	got = part(t, got, "script", "\n"+planfile.ScriptReference()+"\n")
	got = part(t, got, "sounds", soundTable())
	got = part(t, got, "reference", "\n"+planfile.Reference()+"\n")
	if *update {
		if err := os.WriteFile(readme, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(text, got); d != "" {
		t.Errorf("README.md is out of date; go test ./cmd/kettledrum -update mends it (-have +want):\n%s", d)
	}
}

// soundTable is the table of the sounds.
func soundTable() string {
	var s strings.Builder
	s.WriteString("| sound | on the screen | says | how it sounds |\n|---|---|---|---|\n")
	for _, m := range sounds.Motifs() {
		fmt.Fprintf(&s, "| `%s` | %s | %s | %s |\n", m.Class, theme.Word(m.Class), m.Meaning, m.Heard)
	}
	return s.String()
}

// say runs the command in dir and returns what it prints, after a prompt.
func say(t *testing.T, dir string, code int, args ...string) string {
	t.Helper()
	c := exec.Command(program, args...)
	c.Dir = dir
	c.Env = append(os.Environ(), "TZ=UTC", "LANG=en_US.UTF-8")
	out, _ := c.CombinedOutput()
	if got := c.ProcessState.ExitCode(); got != code {
		t.Fatalf("%v: exit code %d, want %d:\n%s", args, got, code, out)
	}
	return fmt.Sprintf("```console\n$ %s %s\n%s```\n", program, strings.Join(args, " "), out)
}

// mishapLines are the lines of a rehearsal that tell of mishaps and of what became of
// them, each with those that go on with it.
func mishapLines(told string) string {
	var b strings.Builder
	keep := false
	for line := range strings.Lines(told) {
		if !strings.HasPrefix(line, "  ") {
			keep = regexp.MustCompile(`^\d\d:\d\d  (mishap|replan|late) |^\w+ served `).MatchString(line)
		}
		if keep {
			b.WriteString(line)
		}
	}
	return "```text\n" + b.String() + "```\n"
}

// debriefLines is what a rehearsal told of how it went.
func debriefLines(told string) string {
	_, after, _ := strings.Cut(told, "\nLate, and why\n")
	after, _, _ = strings.Cut(after, "\nAs it happened\n")
	return "```text\nLate, and why\n" + after + "```\n"
}

// beginning are the first lines of what a command said, n of them.
func beginning(told string, n int) string {
	told = strings.Replace(told, " --serve 2026-12-01 18:30", "", 1) // it is planned for that
	lines := strings.SplitAfterN(told, "\n", n+2)                    // the command, and the fence before it
	return strings.Join(lines[:n+1], "") + "…\n```\n"
}

// part replaces what stands between the two marks of that name.
func part(t *testing.T, text, name, with string) string {
	t.Helper()
	from, to := "<!-- "+name+" -->\n", "<!-- /"+name+" -->\n"
	before, rest, ok := strings.Cut(text, from)
	_, after, ok2 := strings.Cut(rest, to)
	if !ok || !ok2 {
		t.Fatalf("README.md has no marks %s and %s", from, to)
	}
	return before + from + with + to + after
}

// The exit codes that the README explains are those of exit.go.
func TestReadmeHasEveryExitCode(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	for code := exitFine; code <= exitBroken; code++ {
		if !strings.Contains(string(text), fmt.Sprintf("\n| %d | ", code)) {
			t.Errorf("the README does not explain exit code %d", code)
		}
	}
}

// The schema beside the examples, which their first lines name, is the one that
// the command prints. -update rewrites it.
func TestSchemaBesideTheExamples(t *testing.T) {
	t.Parallel()
	const name = "../../examples/kettledrum.schema.json"
	if *update {
		if err := os.WriteFile(name, planfile.Schema(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	have, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(have), string(planfile.Schema())); d != "" {
		t.Errorf("%s is out of date; go test ./cmd/kettledrum -update mends it (-have +want):\n%s", name, d)
	}
	for _, example := range examples.Names() {
		text, _ := examples.Get(example)
		if !strings.HasPrefix(string(text), "# yaml-language-server: $schema=kettledrum.schema.json\n") {
			t.Errorf("the first line of %s does not name the schema", example)
		}
	}
}
