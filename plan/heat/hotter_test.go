package heat_test

import (
	"math"
	"testing"

	"example.org/kettledrum/plan"
	"example.org/kettledrum/plan/heat"
)

// Worked by hand: ln((T − room)/(T − inside)) at 150 °C to 70 °C is ln(130/80) =
// 0.4855, at 160 °C ln(140/90) = 0.4418; at 232 °C to 95 °C ln(212/137) = 0.4366, at
// 246 °C ln(226/151) = 0.4033.
func TestHotter(t *testing.T) {
	t.Parallel()
	for _, tt := range []struct {
		name                   string
		from, to, room, inside plan.Celsius
		want                   float64
	}{
		{"roast", 150, 160, 20, 70, 0.4418 / 0.4855},
		{"bread", 232, 246, 20, 95, 0.4033 / 0.4366},
		{"no-hotter", 160, 160, 20, 70, 1},
		{"colder", 160, 150, 20, 70, 1},
		{"never-done", 90, 100, 20, 95, 1},
		{"done-already", 150, 160, 20, 15, 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := heat.Hotter(tt.from, tt.to, tt.room, tt.inside); math.Abs(got-tt.want) > 5e-4 {
				t.Errorf("%.4f, want %.4f", got, tt.want)
			}
		})
	}
}
