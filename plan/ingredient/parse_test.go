package ingredient

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/measure"
)

// example is a line of testdata/lines with the parse that is expected of it: our
// own lines, ten styles of thirty, each expectation read by eye.
type example struct {
	style, line, want string
	system            measure.System
}

func examples(t testing.TB) []example {
	t.Helper()
	files, err := filepath.Glob("testdata/lines/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no lines: %v", err)
	}
	var out []example
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		e := example{style: strings.TrimSuffix(filepath.Base(f), ".txt")}
		switch e.style {
		case "uk":
			e.system = measure.Imperial
		case "metric":
			e.system = measure.Metric
		}
		for line := range strings.Lines(string(text)) {
			line = strings.TrimSuffix(line, "\n")
			if want, ok := strings.CutPrefix(line, "\t"); ok {
				e.want = want
				out = append(out, e)
				continue
			}
			e.line = line
		}
	}
	return out
}

func TestLines(t *testing.T) {
	t.Parallel()
	all := examples(t)
	styles := map[string]int{}
	for _, e := range all {
		styles[e.style]++
		if got := show(Parse(e.line, e.system)); got != e.want {
			t.Errorf("%s: %s\n got %s\nwant %s", e.style, e.line, got, e.want)
		}
	}
	if len(all) < 300 || len(styles) < 10 {
		t.Errorf("%d lines in %d styles, want 300 in 10", len(all), len(styles))
	}
}

// unsigned is a word without the decimal sign that it may begin with: whether "no.5" holds
// one depends on what stands before.
func unsigned(w string) string { return strings.TrimLeft(w, ".") }

// lost returns the words and numbers of a line that are in none of its parts.
func lost(l Line) []string {
	parts := []string{l.Amount.Text, l.Each.Text, l.Item, l.Note}
	for _, a := range l.Also {
		parts = append(parts, a.Text)
	}
	have := map[string]int{}
	for _, w := range tokensOf(strings.Join(parts, " ; ")) {
		have[unsigned(w)]++
	}
	var out []string
	for _, w := range tokensOf(l.Text) {
		if have[unsigned(w)]--; have[unsigned(w)] < 0 {
			out = append(out, w)
		}
	}
	return out
}

func TestNoWordIsLost(t *testing.T) {
	t.Parallel()
	for _, e := range examples(t) {
		for _, s := range []measure.System{measure.US, measure.Metric, measure.Imperial} {
			l := Parse(e.line, s)
			if words := lost(l); len(words) > 0 {
				t.Errorf("%s: lost %q in %s", e.line, words, show(l))
			}
		}
	}
}

// FuzzParse: whatever the text, there is no panic, every word is found again, and
// nothing is there twice.
func FuzzParse(f *testing.F) {
	for _, e := range examples(f) {
		f.Add(e.line, byte(e.system))
	}
	for _, odd := range []string{"", " ", "(", "1 (", "1 (14 oz", "1/0 cup", "½½½", "1 x", "of", "1 of a", "- ", "a", "half", "half and", "((1 g))", "1 g (2 g (3 g))",
		"100000000000000000000 g", "1,2,3", "1.2.3", "٣ cups", "x 2", "juice of", ":", "2 –", "1 cup 1 tbsp 1 tsp", "\xff 2 g", "1 g 1", "2 (3) (4) x"} {
		f.Add(odd, byte(0))
	}
	f.Fuzz(func(t *testing.T, text string, system byte) {
		l := Parse(text, measure.System(system%3))
		if words := lost(l); len(words) > 0 {
			t.Errorf("%q: lost %q in %s", text, words, show(l))
		}
		parts := []string{l.Amount.Text, l.Each.Text, l.Item, l.Note}
		for _, a := range l.Also {
			parts = append(parts, a.Text)
		}
		if got, want := len(tokensOf(strings.Join(parts, " ; "))), len(tokensOf(l.Text)); got > want {
			t.Errorf("%q: %d words became %d: %q", text, want, got, parts)
		}
		if l.Item == "" && l.Text != "" {
			t.Errorf("%q: no item", text)
		}
		if l.Amount.Lo > l.Amount.Hi || l.Amount.Lo < 0 {
			t.Errorf("%q: from %g to %g", text, l.Amount.Lo, l.Amount.Hi)
		}
	})
}

// Brackets in brackets cost no more than their length.
func TestDeepBrackets(t *testing.T) {
	t.Parallel()
	text := "1 " + strings.Repeat("(2 g ", 100) + "salt" + strings.Repeat(")", 100)
	if words := lost(Parse(text, measure.US)); len(words) > 0 {
		t.Errorf("lost %d words", len(words))
	}
	long := strings.Repeat("1 g salt ", 100)
	if l := Parse(long, measure.US); l.Item != strings.TrimSpace(long) || !l.Amount.None() {
		t.Error("a text too long for a line was taken apart")
	}
}

func TestStructured(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		in   plan.Ingredient
		want string
	}{
		"plain":        {plan.Ingredient{Amount: "2 lb", What: "leeks", Note: "sliced"}, "2 pound | leeks | sliced"},
		"the name":     {plan.Ingredient{What: "12 grain, chopped loaf"}, "| 12 grain, chopped loaf"},
		"pack":         {plan.Ingredient{Amount: "1 (14 oz) can", What: "tomatoes"}, "1 can [14 ounce] | tomatoes"},
		"words":        {plan.Ingredient{Amount: "enough", What: "ice"}, "some | ice"},
		"more":         {plan.Ingredient{Amount: "2 tbsp, plus more to taste", What: "oil"}, "2 US tablespoon | oil | plus more to taste"},
		"frozen":       {plan.Ingredient{Amount: "3 kg", What: "lamb shoulder", Frozen: true}, "3 kilogram | lamb shoulder |  | frozen"},
		"frozen line":  {plan.Ingredient{Text: "3 kg lamb shoulder", Frozen: true}, "3 kilogram | lamb shoulder |  | frozen"},
		"just a line":  {plan.Ingredient{Text: "3 kg lamb shoulder"}, "3 kilogram | lamb shoulder"},
		"every person": {plan.Ingredient{Text: "2 rolls per person"}, "2 | rolls | per person | per person"},
	} {
		if got := show(Of(c.in, measure.US)); got != c.want {
			t.Errorf("%s: got %s, want %s", name, got, c.want)
		}
	}
}

func TestTokens(t *testing.T) {
	t.Parallel()
	for in, want := range map[string][]string{
		"2½ lb":           {"2", "½", "lb"},
		"1,000.5g":        {"1,000.5", "g"},
		"cook's (choice)": {"cook's", "choice"},
		"crème fraîche":   {"crème", "fraîche"},
	} {
		if got := tokensOf(in); !slices.Equal(got, want) {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
