package planfile

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"gopkg.in/yaml.v3"

	"example.org/kettledrum/plan"
)

func (d *decoder) ovens(n *yaml.Node) {
	k := &d.p.Kitchen
	d.several(n, "ovens", "oven", inOven, 20, func(name string, f fields, at *yaml.Node) {
		d.named(d.ovenNo, name, len(k.Ovens), "ovens", at)
		o := plan.Oven{Name: name, Shelves: plan.DefaultShelves, Preheat: plan.DefaultPreheat, Cools: plan.DefaultCools}
		if at != nil {
			o.Pos = pos(at)
		}
		if v, ok := field(d, f, "shelves", count(1, 100)); ok {
			o.Shelves = 2 * v
		}
		if v, ok := field(d, f, "preheat", preheat); ok {
			o.Preheat = v
		}
		if v, ok := field(d, f, "cools", cools); ok {
			o.Cools = v
		}
		k.Ovens = append(k.Ovens, o)
	})
}

// preheat reads "12m to 350F": from the room.
func preheat(s string) (plan.Ramp, error) {
	takes, to, ok := strings.Cut(s, " to ")
	if !ok {
		return plan.Ramp{}, &mistake{"ramp", fmt.Sprintf("%s does not say how hot", quote(s)), "write it like 12m to 350F"}
	}
	return ramp(takes, "", to)
}

// cools reads "14m from 425F to 350F".
func cools(s string) (plan.Ramp, error) {
	takes, temps, ok := strings.Cut(s, " from ")
	from, to, ok2 := strings.Cut(temps, " to ")
	if !ok || !ok2 {
		return plan.Ramp{}, &mistake{"ramp", fmt.Sprintf("%s does not say from where to where", quote(s)), "write it like 14m from 425F to 350F"}
	}
	return ramp(takes, from, to)
}

// ramp reads a stated time between two temperatures; without from it starts at
// the room's.
func ramp(takes, from, to string) (r plan.Ramp, err error) {
	if r.Takes, err = Duration(takes); err != nil {
		return r, err
	}
	if r.Takes < time.Minute || r.Takes > 12*time.Hour {
		return r, &mistake{"ramp", fmt.Sprintf("%s is no time for an oven", quote(takes)), "between 1m and 12h"}
	}
	if r.To, err = oneTemperature(to); err != nil {
		return r, err
	}
	if from == "" {
		if r.To >= ovenHighest {
			return r, &mistake{"ramp", fmt.Sprintf("%s is all that an oven can reach", quote(to)), "state the time to a temperature in use, like 350F"}
		}
		return r, nil
	}
	if r.From, err = oneTemperature(from); err != nil {
		return r, err
	}
	if r.From <= r.To {
		return r, &mistake{"range", fmt.Sprintf("from %s to %s is not cooling", from, to), "the first is the hotter one"}
	}
	return r, nil
}

func oneTemperature(s string) (plan.Celsius, error) {
	at, lo, hi, err := ovenTemperature(s)
	if err == nil && cmp.Compare(hi-lo, 2*plan.DialError+0.001) > 0 {
		err = &mistake{"temperature", fmt.Sprintf("%s is a range", quote(s)), "write one temperature"}
	}
	return at, err
}
