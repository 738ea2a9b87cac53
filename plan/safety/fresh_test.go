package safety

import "testing"

// Which row of the storage chart raw meat and fish in a line of ingredients has, and
// what keeps by other means than cold.
func TestRaw(t *testing.T) {
	t.Parallel()
	for line, want := range map[string]string{
		"7 lb pork shoulder": "roast-raw", "2 steaks": "roast-raw", "500 g minced beef": "ground-raw", "1 chicken": "poultry-whole-raw",
		"4 duck legs": "poultry-whole-raw", "2 lb cod fillets": "fish-fatty", "1 kg mussels": "bivalve-live", "6 large shrimp": "shrimp",
		"200 g bacon": "bacon", "6 sausages": "sausage-raw", "12 scallops": "squid-scallop",
		"1 l chicken stock": "", "1 tin sardines": "", "2 tbsp fish sauce": "", "100 g smoked salmon": "", "1 can tuna in oil": "", "50 g dried shrimp": "",
		"2 tbsp duck fat": "", "8 oyster mushrooms": "", "500 g kidney beans": "", "12 quail eggs": "", "3 bird's eye chillies": "", "2 beef tomatoes": "", "100 g lamb's lettuce": "", "1 onion": "", "12 eggs": "", "": "",
	} {
		row, ok := Raw(line)
		if row.ID != want || ok != (want != "") {
			t.Errorf("%s: %q, want %q", line, row.ID, want)
		}
	}
}
