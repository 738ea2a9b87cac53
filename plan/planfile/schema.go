package planfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
)

// Schema returns the JSON Schema (draft 2020-12) of a plan file's shape:
// indented, the same for every call. It is made of the table of keys.
func Schema() []byte { return schemaOf("A plan of kettledrum", mappings, shapes) }

// ScriptSchema is Schema for a mishap script.
func ScriptSchema() []byte {
	return schemaOf("A mishap script of kettledrum", scriptMappings, slices.Concat(shapes, scriptShapes))
}

// schemaOf returns the schema of a file whose root is the first of the mappings.
func schemaOf(title string, mappings []mapping, shapes []shape) []byte {
	var b strings.Builder
	fmt.Fprintf(&b, `{"$schema":"https://json-schema.org/draft/2020-12/schema","title":%s,`, jsonText(title))
	fmt.Fprintf(&b, `"$ref":"#/$defs/%s","$defs":{`, defName(mappings[0].in))
	for i, d := range shapes {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, "%s:%s", jsonText(d.name), d.schema)
	}
	for _, m := range mappings {
		fmt.Fprintf(&b, ",%s:%s", jsonText(defName(m.in)), m.schema())
	}
	b.WriteString("}}")
	var out bytes.Buffer
	if err := json.Indent(&out, []byte(b.String()), "", "  "); err != nil {
		panic("planfile: the table of keys holds a fragment that is not JSON: " + err.Error())
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// schema returns the schema of one mapping of the file.
func (m mapping) schema() string {
	var b strings.Builder
	fmt.Fprintf(&b, `{"type":"object","description":%s,"additionalProperties":false`, jsonText(strings.ReplaceAll(m.about, "`", "")))
	var required []string
	b.WriteString(`,"properties":{`)
	for i, k := range m.all() {
		if i > 0 {
			b.WriteByte(',')
		}
		// What is said beside a reference or a choice holds as well as that.
		text := k.means
		if k.def != "" && k.def != needed {
			text += "; default: " + k.def
		}
		fmt.Fprintf(&b, `%s:{"description":%s,%s`, jsonText(k.name), jsonText(strings.ReplaceAll(text, "`", "")), k.schema[1:])
		if k.def == needed {
			required = append(required, jsonText(k.name))
		}
	}
	b.WriteByte('}')
	if len(required) > 0 {
		fmt.Fprintf(&b, `,"required":[%s]`, strings.Join(required, ","))
	}
	if m.rest != "" {
		b.WriteString("," + m.rest)
	}
	b.WriteByte('}')
	return b.String()
}

func defName(in place) string { return strings.ReplaceAll(string(in), " ", "-") }

func jsonText(s string) string {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		panic("planfile: " + err.Error())
	}
	return strings.TrimSpace(b.String())
}

// Builders of the fragments in the table of keys.

func ref(name string) string { return `{"$ref":"#/$defs/` + name + `"}` }

func refTo(in place) string { return ref(defName(in)) }

func form(pattern string) string {
	return `{"type":"string","pattern":` + jsonText(whole(pattern)) + `}`
}

func whole(pattern string) string { return `^\s*(?:` + pattern + `)\s*$` }

func anyOf(of ...string) string { return `{"anyOf":[` + strings.Join(of, ",") + `]}` }

func listOf(item string) string { return `{"type":"array","items":` + item + `}` }

func listOfSome(item string) string { return `{"type":"array","minItems":1,"items":` + item + `}` }

func mapOf(value string) string { return `{"type":"object","additionalProperties":` + value + `}` }

func words(w ...string) string {
	quoted := make([]string, len(w))
	for i := range w {
		quoted[i] = jsonText(w[i])
	}
	return `{"enum":[` + strings.Join(quoted, ",") + `]}`
}

// wholeNumber is a number, or its digits in quotes.
func wholeNumber(least, most int) string {
	return fmt.Sprintf(`{"type":["integer","string"],"minimum":%d,"maximum":%d,"pattern":"^\\s*\\+?[0-9]+\\s*$"}`, least, most)
}

const nothing = `{"type":"null"}`

// Patterns of the values' grammars. They are of the shape only: that a range
// goes from short to long, the decoder sees.
const (
	pNumber    = `[0-9]+(?:\.[0-9]+)?`
	pUnit      = ` ?(?:mo|w|d|h|m|s)`
	pTime      = pNumber + pUnit + `(?: *` + pNumber + pUnit + `)*`
	pTo        = ` *(?:-|–|—| to ) *`
	pRange     = `(?:` + pNumber + `|` + pTime + `)` + pTo + pTime
	pTimes     = `(?:` + pTime + `|` + pRange + `)`
	pTakes     = pTimes + `(?: *\(\s*` + pRange + `\s*\))?`
	pCold      = ` in (?:the )?(?:fridge|freezer)(?: *\([0-9]+ places?\))?`
	pWaits     = `(?:at least +)?` + pTimes + `(?:` + pCold + `)?`
	pDegrees   = `-?` + pNumber + `(?: ?°)?(?: ?[FC])?(?: ?(?:-|–|to) ?` + pNumber + `)? ?°? ?[FCfc]`
	pGas       = `[Gg][Aa][Ss](?: [Mm][Aa][Rr][Kk])? (?:1/4|1/2|¼|½|[0-9]+)`
	pHeat      = `(?:` + pDegrees + `(?: *\(\s*` + pDegrees + `\s*\))?|` + pGas + `)`
	pKeeps     = `freely|` + pTime + `(?: *\(\s*` + pTime + ` at most\s*\)|` + pCold + `| in (?:the )?oven at +` + pHeat + `)?`
	pWindow    = `(?:(?:[^\s\d:-]+|-[0-9]{1,3}d|[0-9]{4}-[0-9]{2}-[0-9]{2}) +)?[0-9]{1,2}:[0-9]{2} ?[-–] ?[0-9]{1,2}:[0-9]{2}`
	pTable     = `[0-9]{4}-[0-9]{2}-[0-9]{2}[ T]+[0-9]{1,2}:[0-9]{2}.*`
	pBurner    = `(?:[0-9]+ )?(?:large|small|any)`
	pSpace     = `half|half a shelf|a shelf|shelf|[0-9]+(?:\.5)?(?: (?:shelf|shelves))?`
	pWhen      = `(?:every +` + pTime + `|halfway|` + pTime + ` before (?:the )?end)`
	pRemind    = pWhen + ` *: (?:.|\s)*\S`
	pShortStep = `(?:.|\s)+,\s*` + pTakes
	pCode      = `[a-z][a-z0-9]*(?:-[a-z0-9]+)*`
	pYesNo     = `[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee]|[Yy][Ee][Ss]|[Nn][Oo]`
)

// shape is a named value of a schema.
type shape struct{ name, schema string }

// shapes are the schema's named values that several keys share.
var shapes = []shape{
	{"text", `{"type":["string","number","boolean"],"pattern":"\\S"}`},
	{"texts", anyOf(ref("text"), listOf(ref("text")))},
	{"yes-or-no", `{"type":["boolean","string"],"pattern":` + jsonText(whole(pYesNo)) + `}`},
	{"duration", form(pTime)},
	{"oven-temperature", form(pHeat)},
	{"name-and-count", mapOf(wholeNumber(1, 1000))},
}
