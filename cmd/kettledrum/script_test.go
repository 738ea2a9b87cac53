package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// The stories run the real command in processes of their own.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"kettledrum": main})
}

// TestScript runs the stories in testdata/script, one user story a file.
func TestScript(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("TZ", "America/New_York")
			e.Setenv("LANG", "en_US.UTF-8")
			e.Setenv("XDG_STATE_HOME", e.WorkDir+"/state")
			examples, err := filepath.Abs("../../examples")
			if err != nil {
				return err
			}
			e.Setenv("EXAMPLES", examples)
			return nil
		},
		// [exists:FILE] tells whether there is such a file outside the story.
		Condition: func(cond string) (bool, error) {
			name, ok := strings.CutPrefix(cond, "exists:")
			if !ok {
				return false, fmt.Errorf("unknown condition %q", cond)
			}
			_, err := os.Stat(name)
			return err == nil, nil
		},
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exits":    exits,
			"jsonkeys": jsonKeys,
		},
	})
}

// exits CODE COMMAND… runs a command and wants that exit code.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		got = exitStatus(err)
	}
	if got != args[0] {
		ts.Fatalf("%v: exit code %s, want %s", args[1:], got, args[0])
	}
}

// jsonkeys FILE KEY… wants the keys of the file's JSON object to be these.
func jsonKeys(ts *testscript.TestScript, neg bool, args []string) {
	var got map[string]any
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &got))
	want := slices.Sorted(slices.Values(args[1:]))
	if have := slices.Sorted(maps.Keys(got)); slices.Equal(have, want) == neg {
		ts.Fatalf("keys are %v, want %v", have, want)
	}
}

// exitStatus is the code with which a command ended.
func exitStatus(err error) string {
	var x *exec.ExitError
	if errors.As(err, &x) {
		return strconv.Itoa(x.ExitCode())
	}
	return err.Error()
}
