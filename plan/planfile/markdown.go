package planfile

import (
	"fmt"
	"strings"
)

// Reference returns the reference of the plan file in Markdown: one table for
// each place in which keys stand. It is made of the table of keys.
func Reference() string { return referenceOf(mappings) }

// ScriptReference is Reference for a mishap script.
func ScriptReference() string { return referenceOf(scriptMappings) }

func referenceOf(mappings []mapping) string {
	var b strings.Builder
	for i, m := range mappings {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "### Keys of %s\n\n%s", m.in, m.about)
		if m.like != "" {
			var but []string
			for _, k := range m.but {
				but = append(but, tick(k))
			}
			fmt.Fprintf(&b, " It has the keys of %s without %s, and these:", m.like, strings.Join(but, ", "))
		}
		b.WriteString("\n\n| key | value | meaning | default |\n|---|---|---|---|\n")
		for _, k := range m.keys {
			fmt.Fprintf(&b, "| `%s` | %s | %s | %s |\n", k.name, cell(k.form), cell(k.means), cell(k.def))
		}
	}
	return b.String()
}

// cell keeps text from ending a cell of a table.
func cell(s string) string { return strings.ReplaceAll(s, "|", `\|`) }
