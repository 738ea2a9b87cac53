package planfile

import "testing"

func TestRespelled(t *testing.T) {
	t.Parallel()
	for s, want := range map[string]string{
		"10 to 20 min":              "10m to 20m",
		"10 - 20 minutes":           "10m - 20m",
		"10–20 Min":                 "10m–20m",
		"1 hour 30 min":             "1h30m",
		"3.5hrs":                    "3.5h",
		"2 hrs to 2 days in fridge": "2h to 2d in fridge",
		"10m to 20m":                "10m to 20m",
		"3 leeks":                   "3 leeks",
		"min":                       "min",
		"":                          "",
	} {
		got := respelled(s)
		if got != want {
			t.Errorf("%q is respelled %q, want %q", s, got, want)
		}
		if again := respelled(got); again != got {
			t.Errorf("%q respelled once more is %q", got, again)
		}
	}
}
