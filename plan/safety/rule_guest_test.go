package safety

import "testing"

// Under five, 65 and over, pregnant, weak immunity: FDA, people at risk of foodborne
// illness. A child whose age is not said may be under five.
func TestAtRisk(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		note string
		want bool
	}{
		{"", false}, {"all grown up", false}, {"Ben (4)", true}, {"Ben (5)", false}, {"Ada, 64", false}, {"Ada, 65", true}, {"my aunt is 82", true}, {"an 82-year-old", true},
		{"aged 3", true}, {"aged 30", false}, {"two children", true}, {"two children, 8 and 11", false}, {"Lea is pregnant", true}, {"a baby", true}, {"Tom has a new kidney: a transplant", true},
		{"grandmother comes", true}, {"chemotherapy", true}, {"at table 12", false}, {"Ada is 42 and Ben is 3", true}, {"8 months old", true}, {"vegetarian", false},
	} {
		if got := atRisk(c.note); got != c.want {
			t.Errorf("%q: at risk is %v, want %v", c.note, got, c.want)
		}
	}
}
