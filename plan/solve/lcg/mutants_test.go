package lcg

import (
	"encoding/json"
	"errors"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
)

var mutants = flag.Bool("mutants", false, "build the package with each bug of testdata/mutants and expect the audit to see it")

// TestMutants asks whether the audit bites: each file of testdata/mutants names
// a source file, a piece of its text and a wrong text for it, and with that the
// audit must fail. Where a source file changes, its mutants follow: that each
// still fits is asked every time, the building and running only with -mutants.
func TestMutants(t *testing.T) {
	t.Parallel()
	files, err := filepath.Glob("testdata/mutants/*.txt")
	if err != nil || len(files) < 9 {
		t.Fatalf("mutants: %d, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txt"), func(t *testing.T) {
			t.Parallel()
			source, wrong := mutate(t, file)
			if *mutants {
				mustFail(t, source, wrong)
			}
		})
	}
}

// mutate returns the source file that a mutant changes, and its changed text.
func mutate(t *testing.T, file string) (source, text string) {
	t.Helper()
	a, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, f := range a.Files {
		parts[f.Name] = strings.TrimSuffix(string(f.Data), "\n")
	}
	source = parts["file"]
	right, err := os.ReadFile(source)
	if err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	if n := strings.Count(string(right), parts["old"]); n != 1 || parts["old"] == parts["new"] {
		t.Fatalf("%s: its old text is in %s %d times and should be there once: bring it up to date with the source", file, source, n)
	}
	return source, strings.Replace(string(right), parts["old"], parts["new"], 1)
}

// mustFail runs the audit with another text of a source file.
func mustFail(t *testing.T, source, text string) {
	t.Helper()
	dir := t.TempDir()
	changed := filepath.Join(dir, source)
	absolute, err := filepath.Abs(source)
	if err != nil {
		t.Fatal(err)
	}
	overlay, err := json.Marshal(map[string]any{"Replace": map[string]string{absolute: changed}})
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{changed: []byte(text), filepath.Join(dir, "overlay.json"): overlay} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	out, err := exec.Command("go", "test", "-overlay", filepath.Join(dir, "overlay.json"), "-vet=off", "-count=1",
		"-timeout=60s", "-run=^(TestModels|TestCounts)$", ".", "-models=5000").CombinedOutput()
	var exit *exec.ExitError
	switch {
	case err == nil:
		t.Errorf("nothing was seen")
	case !errors.As(err, &exit) || strings.Contains(string(out), "[build failed]"):
		t.Errorf("%v: %s", err, out)
	default:
		for line := range strings.Lines(string(out)) {
			if strings.Contains(line, "model") || strings.Contains(line, "timed out") {
				t.Logf("%.300s", strings.TrimSpace(line))
				break
			}
		}
	}
}
