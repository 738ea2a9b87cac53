package planfile

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/kettledrum/plan"
)

func TestSnippet(t *testing.T) {
	t.Parallel()
	long := strings.Repeat("x", 200) + "Y" + strings.Repeat("z", 200)
	for _, c := range []struct {
		name, line string
		col        int
		shown      string
		at         int
	}{
		{"plain", "  tkaes: 3h", 3, "  tkaes: 3h", 2},
		{"tab", "a:\tb", 4, "a:    b", 6},
		{"wide", "魚: x", 4, "魚: x", 4},
		{"combining", "cre\u0300me x", 7, "cre\u0300me x", 5},
		{"control", "a\x1b[31mb", 2, "a\uFFFD[31mb", 1},
		{"not-utf-8", "a\xffb", 3, "a\uFFFDb", 2},
		{"beyond-the-end", "ab", 9, "ab", 2},
		{"long", long, 201, "…" + strings.Repeat("x", 60) + "Y" + strings.Repeat("z", 40) + "…", 61},
	} {
		if shown, at := snippet(c.line, c.col); shown != c.shown || at != c.at {
			t.Errorf("%s: got %q at %d, want %q at %d", c.name, shown, at, c.shown, c.at)
		}
	}
}

func TestFormat(t *testing.T) {
	t.Parallel()
	ps := plan.Problems{
		{Code: "a", Pos: plan.Pos{Line: 2, Col: 3}, Text: "wrong", Hints: []string{"one", "two"}},
		{Code: "b", Severity: plan.Notice, Pos: plan.Pos{Line: 9, Col: 1}, Text: "beyond the file"},
		{Code: "c", Text: "nowhere"},
	}
	want := `p.yaml:2:3: wrong
    b: 1
    ^
hint: one
hint: two

p.yaml:9:1: note: beyond the file

p.yaml: nowhere
`
	if diff := cmp.Diff(want, Format("p.yaml", []byte("a:\r\n  b: 1\r\n"), ps)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestWritten(t *testing.T) {
	t.Parallel()
	for _, s := range []string{"0m", "5m", "1h30m", "2d3h", "90d", "45s"} {
		d, err := Duration(s)
		if err != nil || written(d) != s {
			t.Errorf("%s: got %s, %v", s, written(d), err)
		}
	}
}
