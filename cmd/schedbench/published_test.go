//go:build published

package main

import (
	"os"
	"path/filepath"
	"testing"
)

// The published instances, which are not in the repository: every file is read, what is
// known of it fits, and its horizon leaves room for the best schedule known.
func TestPublishedInstances(t *testing.T) {
	t.Parallel()
	root := os.Getenv("SCHEDBENCH_DATA")
	dirs, err := filepath.Glob(filepath.Join(root, "*", "best.csv"))
	if root == "" || err != nil || len(dirs) == 0 {
		t.Fatalf("no folder with a best.csv in SCHEDBENCH_DATA=%q: it names a folder of folders of published instances", root)
	}
	for _, best := range dirs {
		dir := filepath.Dir(best)
		t.Run(filepath.Base(dir), func(t *testing.T) {
			t.Parallel()
			files, err := instances(dir)
			if err != nil {
				t.Fatal(err)
			}
			known, err := readKnown(dir)
			if err != nil {
				t.Fatal(err)
			}
			if len(files) != len(known) {
				t.Errorf("%d instances, best.csv has %d", len(files), len(known))
			}
			for _, file := range files {
				p, err := readProject(file)
				if err != nil {
					t.Error(err)
					continue
				}
				k, ok := known[p.name]
				if !ok {
					t.Errorf("%s is not in best.csv", p.name)
				}
				if j, _, much := p.tooMuch(); much && !k.infeasible {
					t.Errorf("%s: job %d asks for too much, best.csv knows a schedule", p.name, j)
				}
				if h := p.horizon(); k.best > h {
					t.Errorf("%s: horizon %d, best %d", p.name, h, k.best)
				}
			}
		})
	}
}
