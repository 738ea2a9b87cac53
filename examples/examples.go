// Package examples holds the plans that come with the program: dinners to read,
// to copy and to rehearse. They are plain text; it knows nothing of what is in
// them.
package examples

import (
	"embed"
	"slices"
	"strings"
)

//go:embed *.yaml
var files embed.FS

// The examples by name.
var (
	Harvest   = mustRead("harvest")   // three courses for eight over three days; the one the program runs by default
	Weeknight = mustRead("weeknight") // two dishes in 45 minutes; the one to copy
	Banquet   = mustRead("banquet")   // sixty covers: two ovens, three cooks, two days
	TooMuch   = mustRead("too-much")  // cannot be: one oven, two temperatures, one minute
)

// Names returns the names of all examples, sorted.
func Names() []string {
	entries, err := files.ReadDir(".")
	if err != nil {
		panic("examples: the embedded folder cannot be read: " + err.Error())
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".yaml"))
	}
	slices.Sort(names)
	return names
}

// Get returns the text of an example, and whether there is one of that name.
func Get(name string) ([]byte, bool) {
	text, err := files.ReadFile(name + ".yaml")
	return text, err == nil
}

func mustRead(name string) []byte {
	text, ok := Get(name)
	if !ok {
		panic("examples: there is no " + name)
	}
	return text
}
