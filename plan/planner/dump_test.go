package planner

import (
	"fmt"
	"strings"

	"example.org/kettledrum/plan"
)

// dump writes a timetable out, for the message of a failed test.
func dump(p *plan.Plan, tt *plan.Timetable) string {
	var b strings.Builder
	for i, x := range tt.Slots {
		s := &p.Steps[i]
		fmt.Fprintf(&b, "%s %s–%s cook %d oven %d burner %v progress %d, lasts %v, keeps %v\n", s.ID,
			x.Start.Format("15:04"), x.End.Format("15:04"), x.Cook, x.Oven, x.Burner, x.Progress, s.Length, s.Keeps)
		if s.Oven != nil {
			fmt.Fprintf(&b, "   bake %+v\n", *s.Oven)
		}
	}
	for _, x := range tt.Sets {
		fmt.Fprintf(&b, "set %s to %v off %v for %d ready %s\n", x.At.Format("15:04:05"), x.To, x.Off, x.For, x.Ready.Format("15:04"))
	}
	for _, x := range tt.Touches {
		fmt.Fprintf(&b, "touch %s %v %d cook %d\n", x.At.Format("15:04"), x.What, x.Step, x.Cook)
	}
	for c, x := range tt.Serves {
		fmt.Fprintf(&b, "serve %s asked %s\n", x.Format("15:04"), p.Asked(c).Format("15:04"))
	}
	return b.String()
}
