// Package heat holds the formulas by which ovens warm and cool. It knows no
// clock and no plan beyond its kitchen values, and imports the standard library
// only.
//
// An oven is a first-order system. At full power it heats towards a limit that
// it never quite reaches, switched down it cools towards the room:
//
//	heating  T(t) = T_max − (T_max − T₀)·e^(−t/τ_h)
//	cooling  T(t) = T_room + (T₀ − T_room)·e^(−t/τ_c)
//
// It moves at that rate until it is at its set-point and then holds it. The two
// constants come from what the cook says of the oven: how long from the room to
// one temperature, and how long from one temperature down to another.
//
// Source: first-order lag, any textbook of process control; T_max = 300 °C is a
// convention of this project (a domestic oven's full power).
package heat
