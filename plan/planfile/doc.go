// Package planfile turns the text of a plan file into a plan.Plan, or into all
// the mistakes in it, each with line, column and what would be right; and the text
// of a mishap script into mishaps in the same way. It knows nothing of timetables
// and reads neither files nor the clock.
//
// # Flow
//
//	bytes ─ yaml.go ─▶ tree of nodes ─ decode.go ─▶ plan.Plan ─ validate.go ─▶ plan.Problems
//	        guarded    positions kept   one file a     every default     what the parts
//	        parse                       kind of value  filled in         say together
//
// # Reading order
//
//   - decode.go, dinner.go: the top of the file, courses, when the dinner is
//   - keys.go: the one table of keys; schema.go and markdown.go make the JSON Schema and
//     the reference of it
//   - fields.go, value.go, unknown.go: the typed readers that everything below uses
//   - kitchen.go, oven.go, dish.go, step.go, needs.go, tool.go, remind.go, chore.go,
//     reference.go: the parts of a plan
//   - duration.go, length.go, keep.go, temperature.go, window.go, words.go, foods.go: the
//     grammar of single values, plain functions of a string
//   - validate.go, demand.go, meet.go: what no single value can tell
//   - yaml.go, syntax.go: text to nodes, and what to say where it is not YAML
//   - source.go, snippet.go: a problem as the cook reads it
//   - script_keys.go, script.go: a mishap script, read in the same way
//
// The YAML library is asked for nodes only: its own decoding into Go values
// loses positions and panics on some input.
package planfile
