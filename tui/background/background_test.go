package background

import "testing"

func TestDark(t *testing.T) {
	t.Parallel()
	for value, want := range map[string]bool{
		"": true, "15;0": true, "0;15": false, "0;7": false, "12;8": true,
		"15;default;0": true, "0;default;15": false, "default;default": true, "x": true,
	} {
		if got := Dark(value); got != want {
			t.Errorf("Dark(%q) = %v, want %v", value, got, want)
		}
	}
}
