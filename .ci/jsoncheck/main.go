// Command jsoncheck reads what `kettledrum plan --json` prints from standard
// input and fails unless it has the documented shape: the keys, and lists where
// lists should be.
package main

import (
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"time"
)

// shape names the keys of the whole and of the rows of its lists.
var shape = map[string]string{
	"":         "title table status latest_start courses steps touches oven load cautions breaks sure",
	"courses":  "name serve_at planned_at late_min",
	"steps":    "id dish do start end cooks hands oven burner tools vessel cold slack_min",
	"touches":  "step oven what at cook",
	"oven":     "name at set_f ready_at",
	"load":     "cook from to calls work_min",
	"cautions": "code step text why do source accepted",
	"breaks":   "kind step text minutes",
}

func main() {
	var whole map[string]any
	if err := json.NewDecoder(os.Stdin).Decode(&whole); err != nil {
		fail("%v", err)
	}
	keys("", whole)
	if _, err := time.Parse(time.RFC3339, fmt.Sprint(whole["table"])); err != nil {
		fail("table: %v", err)
	}
	rows := 0
	for list := range maps.Keys(shape) {
		if list == "" {
			continue
		}
		l, ok := whole[list].([]any)
		if !ok {
			fail("%s is %v, want a list", list, whole[list])
		}
		for _, row := range l {
			m, ok := row.(map[string]any)
			if !ok {
				fail("%s holds %v, want an object", list, row)
			}
			keys(list, m)
			rows++
		}
	}
	fmt.Printf("json: %d rows of the right shape\n", rows)
}

func keys(of string, m map[string]any) {
	want := strings.Fields(shape[of])
	slices.Sort(want)
	if got := slices.Sorted(maps.Keys(m)); !slices.Equal(got, want) {
		fail("%q has the keys %v, want %v", of, got, want)
	}
}

func fail(format string, args ...any) {
	fmt.Fprintf(os.Stderr, "jsoncheck: "+format+"\n", args...)
	os.Exit(1)
}
