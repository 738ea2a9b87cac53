package plan_test

import (
	"encoding/json"
	"errors"
	"io"
	"os/exec"
	"slices"
	"strings"
	"testing"
)

const module = "example.org/kettledrum"

// pkg is what go list tells of a package.
type pkg struct {
	ImportPath string
	Standard   bool
	Imports    []string // direct
	Deps       []string // direct and indirect
}

// Who may lean on whom. Data flows one way, from the plan file to the screen,
// so imports point one way as well. A path ending in /... stands for the
// package and all below it.
var arrows = []struct {
	from   string
	never  []string
	direct bool // only direct imports count
	why    string
}{
	{"plan", []string{"cmd/...", "tui/...", "sounds", "plan/..."}, false,
		"plan is the vocabulary everything else speaks; it knows none of them"},
	{"plan/network", []string{"plan", "plan/..."}, false,
		"network is time points and differences, without a kitchen word"},
	{"plan/solve", []string{"plan", "plan/run", "plan/planner", "plan/planfile", "plan/heat", "plan/verify", "plan/clock", "plan/session", "plan/journal"}, false,
		"solve knows no plan, no clock and no kitchen word"},
	{"plan/verify", []string{"plan/solve", "plan/planner", "plan/network", "plan/run", "plan/heat", "plan/session"}, false,
		"a check that shares code with what it checks repeats its mistakes"},
	{"plan/planfile", []string{"plan/solve", "plan/planner", "plan/run", "plan/session", "plan/journal", "plan/verify"}, false,
		"planfile reads text; what becomes of the plan is not its business"},
	{"plan/mishap", []string{"plan/run", "plan/planner", "plan/solve", "plan/session", "plan/planfile"}, false,
		"a mishap is a value; who plays it is not its business"},
	{"plan/run", []string{"plan/planner", "plan/solve", "plan/journal", "plan/session", "plan/planfile", "plan/clock"}, false,
		"fold and conduct are pure: no solver, no file, no clock"},
	{"plan/planner", []string{"plan/session", "plan/journal", "plan/planfile", "plan/clock"}, false,
		"a timetable is computed from values alone"},
	{"plan/kept", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/clock"}, false,
		"what lies where is read off a plan and a timetable"},
	{"plan/debrief", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/clock"}, false,
		"a debrief is read off a plan and two timetables; whoever plays dinners tries its ideas"},
	{"plan/walk", []string{"plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/clock"}, false,
		"a walk-through is read off a timetable and its cues"},
	{"plan/remedy", []string{"plan/planner", "plan/solve", "plan/session", "plan/journal", "plan/planfile", "plan/verify", "plan/clock"}, false,
		"a remedy is computed by whoever plans and judges, handed in"},
	{"plan/journal", []string{"plan", "plan/run", "plan/session", "plan/planner", "plan/planfile"}, false,
		"the journal's payloads are opaque to it"},
	{"plan/clock", []string{"plan", "plan/run", "plan/session"}, false,
		"a clock tells the time and nothing else"},
	{"plan/heat/heattest", []string{"plan", "plan/..."}, false,
		"a simulated roast shares nothing with the forecast that it tests"},
	{"plan/heat", []string{"plan/run", "plan/planner", "plan/solve", "plan/session"}, false,
		"heat is formulas"},
	{"plan/safety", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/clock"}, false,
		"safety is tables and rules on values"},
	{"plan/measure", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/ingredient", "plan/session", "plan/clock"}, false,
		"measure is tables and conversions"},
	{"plan/ingredient", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/safety", "plan/session", "plan/clock"}, false,
		"ingredient reads a line of text; what it means for safety or the shop is not its business"},
	{"plan/shop", []string{"plan/run", "plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/clock"}, false,
		"a shopping list is computed from a plan and its timetable"},
	{"plan/review", []string{"plan/planner", "plan/solve", "plan/planfile", "plan/session", "plan/journal", "plan/verify", "plan/clock"}, false,
		"a review is computed from runs as they were folded"},
	{"plan/session", []string{"tui/...", "sounds", "cmd/..."}, false,
		"a session runs without a screen"},
	{"plan/rehearse", []string{"tui/...", "sounds", "cmd/...", "plan/planner", "plan/planfile"}, true,
		"a player tells a session what happens, and nobody else"},
	{"plan/risk", []string{"plan/planner", "plan/solve", "plan/session", "plan/journal", "plan/planfile", "plan/verify", "plan/clock", "plan/rehearse"}, false,
		"chances are computed from values; whoever plans or conducts is handed in"},
	{"tui", []string{"plan/planner", "plan/solve", "plan/journal", "plan/planfile", "plan/verify", "sounds", "sounds/speaker", "cmd/..."}, true,
		"the screen shows what the session offers and hands back what the cook did"},
	{"sounds", []string{"tui/...", "plan/session", "plan/planner", "sounds/ring", "sounds/speaker"}, false,
		"a motif is made of a class of cue, and knows no more"},
	{"sounds/ring", []string{"tui/...", "plan/session", "plan/planner", "plan/clock", "sounds", "sounds/speaker"}, false,
		"when to ring is a function of cues and time: no clock, no sound"},
	{"sounds/speaker", []string{"tui/...", "plan/session", "plan/planner", "sounds/ring"}, false,
		"a loudspeaker plays what it is told, and knows no cue"},
}

// Modules from elsewhere: only these packages may use them.
var modules = []struct {
	path string
	only []string
	why  string
}{
	{"github.com/charmbracelet/bubbletea", []string{"cmd/...", "tui/..."}, "nothing below the screen knows a terminal"},
	{"github.com/charmbracelet/lipgloss", []string{"cmd/...", "tui/..."}, "nothing below the screen knows a colour"},
	{"gopkg.in/yaml.v3", []string{"plan/planfile", "cmd/...", "tui/tuitest"}, "only planfile reads YAML: the others ask it"},
	{"gonum.org/", []string{"sounds/soundtest"}, "numbers are for tests"},
	{"github.com/spf13/", []string{"cmd/..."}, "arguments stop at the command"},
}

func TestImportsPointOneWay(t *testing.T) {
	t.Parallel()
	all := list(t)
	for _, a := range arrows {
		p, ok := all[module+"/"+a.from]
		if !ok {
			t.Errorf("there is no package %s: the table of arrows is out of date", a.from)
			continue
		}
		uses := p.Deps
		if a.direct {
			uses = p.Imports
		}
		for _, dep := range uses {
			if i := slices.IndexFunc(a.never, func(n string) bool { return under(dep, n) }); i >= 0 {
				t.Errorf("%s imports %s: %s", a.from, strings.TrimPrefix(dep, module+"/"), a.why)
			}
		}
	}
}

func TestModulesStayWhereTheyBelong(t *testing.T) {
	t.Parallel()
	for path, p := range list(t) {
		for _, m := range modules {
			for _, dep := range p.Deps {
				if strings.HasPrefix(dep, m.path) && !slices.ContainsFunc(m.only, func(o string) bool { return under(path, o) }) {
					t.Errorf("%s needs %s: %s", strings.TrimPrefix(path, module+"/"), dep, m.why)
				}
			}
		}
	}
}

// The vocabulary and the formulas need nothing but the standard library.
func TestStandardLibraryOnly(t *testing.T) {
	t.Parallel()
	all := list(t)
	for _, name := range []string{"plan", "plan/network", "plan/solve", "plan/verify", "plan/clock", "plan/heat", "plan/safety", "plan/source", "plan/measure", "plan/ingredient", "plan/shop", "plan/run", "plan/review"} {
		for _, dep := range all[module+"/"+name].Deps {
			if first, _, _ := strings.Cut(dep, "/"); strings.Contains(first, ".") && !strings.HasPrefix(dep, module) {
				t.Errorf("%s needs %s, want the standard library only", name, dep)
			}
		}
	}
}

// under reports whether the import path is the module's package pattern, or
// below it where the pattern ends in /... (plan/... leaves out plan itself).
func under(path, pattern string) bool {
	full := module + "/" + pattern
	if base, ok := strings.CutSuffix(full, "/..."); ok {
		return strings.HasPrefix(path, base+"/") || path == base && pattern != "plan/..."
	}
	return path == full
}

// list asks the go command for every package of the module, without tests.
func list(t *testing.T) map[string]pkg {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Standard,Imports,Deps", module+"/...").Output()
	if err != nil {
		if x := (*exec.ExitError)(nil); errors.As(err, &x) {
			t.Fatalf("go list: %s", x.Stderr)
		}
		t.Fatal(err)
	}
	all := map[string]pkg{}
	for d := json.NewDecoder(strings.NewReader(string(out))); ; {
		var p pkg
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatal(err)
		}
		all[p.ImportPath] = p
	}
}
