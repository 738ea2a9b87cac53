package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"

	"example.org/kettledrum/examples"
	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/clock/clocktest"
	"example.org/kettledrum/plan/planner"
	"example.org/kettledrum/plan/shop"
)

func read(t *testing.T, name string, text []byte) *plan.Plan {
	t.Helper()
	src := source{name: name, text: text}
	p, err := src.load(&world{clock: clocktest.New(utc(1, 12, 0)), msg: messages{os.Stderr}}, reading{})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// allotment is a list of every kind of row, by a timetable written by hand, so that
// what the planner likes does not matter.
func allotment(t *testing.T) (*plan.Plan, shop.List) {
	t.Helper()
	text, err := os.ReadFile("testdata/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := read(t, "shop.yaml", text)
	tt := &plan.Timetable{Status: plan.Whole, Serves: []time.Time{p.Table}}
	for i, before := range []time.Duration{3*time.Hour + 35*time.Minute, 3*time.Hour + 20*time.Minute, 15 * time.Minute, 35 * time.Minute, // lamb, soup
		16*time.Hour + 10*time.Minute, 4 * time.Hour} { // cakes: mixed on the evening before
		tt.Slots = append(tt.Slots, plan.Slot{Start: p.Table.Add(-before), End: p.Table.Add(-before + p.Steps[i].Length.Planned())})
	}
	l := shop.Make(p, tt)
	l.Judge(p, tt, tt)
	return p, l
}

func TestShopText(t *testing.T) {
	t.Parallel()
	p, l := allotment(t)
	var b, bare strings.Builder
	writeShop(&b, p, l)
	writeShopBare(&bare, l)
	golden(t, "shop.txt", b.String())
	golden(t, "shop-bare.txt", bare.String())
}

func TestShopTextFitsTheSheet(t *testing.T) {
	t.Parallel()
	p, l := allotment(t)
	p.Title = strings.Repeat("long ", 40)
	for i := range l.Trips {
		for k := range l.Trips[i].Items {
			it := &l.Trips[i].Items[k]
			it.Name = strings.Repeat("里芋", 40) + "\x1b[31m"
			it.For[0].Dish = strings.Repeat("dish ", 30)
		}
	}
	var b strings.Builder
	writeShop(&b, p, l)
	for line := range strings.Lines(b.String()) {
		if w := ansi.StringWidth(strings.TrimRight(line, "\n")); w > textWidth {
			t.Errorf("%d cells wide, want at most %d: %q", w, textWidth, line)
		}
	}
	writeShopBare(&b, l)
	if strings.ContainsAny(b.String(), "\x1b\a\r") {
		t.Error("a control character of the plan is printed")
	}
}

func TestShopJSON(t *testing.T) {
	t.Parallel()
	_, l := allotment(t)
	var b bytes.Buffer
	writeJSON(&results{w: &b}, l)
	golden(t, "shop.json", b.String())
	if err := validate(t, shopSchema, b.Bytes()); err != nil {
		t.Error(err)
	}
}

// The schema fits the lists of the examples, also of one that has none.
func TestShopSchemaFitsTheExamples(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"harvest", "weeknight", "too-much"} {
		text, _ := examples.Get(name)
		p := read(t, name, text)
		l := shop.Make(p, planner.Make(t.Context(), p))
		var b bytes.Buffer
		writeJSON(&results{w: &b}, l)
		if err := validate(t, shopSchema, b.Bytes()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The schema bites: each change of the golden output is refused.
func TestShopSchemaRefuses(t *testing.T) {
	t.Parallel()
	text, err := os.ReadFile("testdata/shop.json")
	if err != nil {
		t.Fatal(err)
	}
	trip := func(doc map[string]any) map[string]any { return doc["trips"].([]any)[0].(map[string]any) }
	item := func(doc map[string]any) map[string]any { return trip(doc)["items"].([]any)[0].(map[string]any) }
	for name, change := range map[string]func(doc map[string]any){
		"unknown-key":  func(doc map[string]any) { doc["extra"] = 1 },
		"missing-key":  func(doc map[string]any) { delete(doc, "thaw") },
		"null-list":    func(doc map[string]any) { doc["notes"] = nil },
		"no-time":      func(doc map[string]any) { trip(doc)["by"] = "Saturday" },
		"empty-trip":   func(doc map[string]any) { trip(doc)["items"] = []any{} },
		"no-name":      func(doc map[string]any) { item(doc)["name"] = "" },
		"unknown-more": func(doc map[string]any) { item(doc)["more"] = "some" },
		"null-amounts": func(doc map[string]any) { item(doc)["amounts"] = nil },
		"nothing": func(doc map[string]any) {
			item(doc)["amounts"] = []any{map[string]any{"text": "0 g", "low": 0, "high": 0, "unit": "g", "about": false}}
		},
	} {
		if validate(t, shopSchema, altered(t, text, change)) == nil {
			t.Errorf("%s: the schema takes it", name)
		}
	}
}
