package run

import (
	"cmp"
	"errors"
	"time"

	"example.org/kettledrum/plan/network"
)

// times finds times on the network. Where what has happened contradicts the order
// of the timetable, ordered arcs are taken out of the network, one at a time, until
// there are some: of those on a circle the one that drop picks.
//
// Errors: *network.CycleError where a circle has no ordered arc.
func (o *order) times(find func(*network.Network) ([]int64, error)) ([]int64, error) {
	for {
		x, err := find(o.net)
		var circle *network.CycleError
		if !errors.As(err, &circle) || !o.drop(circle.Arcs) {
			return x, err
		}
	}
}

// drop takes one ordered arc of a circle out of the network: the one that the
// timetable itself keeps least, of equal ones the one between the first points.
// On a circle that is too long some arc is not as planned, for the planned
// distances around it sum to nothing. It reports whether there was one.
func (o *order) drop(circle []network.Arc) bool {
	least := func(a network.Arc) time.Duration {
		return o.planned(a.To).Sub(o.planned(a.From)) - time.Duration(a.Weight)
	}
	var worst *network.Arc
	for k := range circle {
		a := &circle[k]
		if a.Tag != ordered {
			continue
		}
		if worst == nil || cmp.Or(cmp.Compare(least(*a), least(*worst)), cmp.Compare(a.From, worst.From), cmp.Compare(a.To, worst.To)) < 0 {
			worst = a
		}
	}
	if worst == nil {
		return false
	}
	kept := network.New(o.net.Points())
	for _, a := range o.net.Arcs() {
		if a != *worst {
			kept.AddArc(a.From, a.To, a.Weight, a.Tag)
		}
	}
	o.net = kept
	return true
}
