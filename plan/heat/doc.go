// Package heat holds the formulas by which ovens warm and cool, and by which the
// readings of a thermometer tell when food will be done. It knows no clock and no
// plan beyond its kitchen values, and imports the standard library only.
//
// # Ovens
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
//
// # Roasts
//
// The inside of a roast stays cold for a while and then follows, after the first
// terms of the series have died away (Incropera and DeWitt, Fundamentals of Heat
// and Mass Transfer, 5.5 and 5.6),
//
//	T(t) = T_eff − (T_eff − T₀)·C·e^(−kt)
//
// so ln(T_eff − T) is a line in time, and the readings give its slope. T_eff is
// not what the dial says: a wet surface stays far below the oven (Bengtsson and
// others, Journal of Food Science 41, 1976, 1047). Effective, usable, fit and
// Predict say what is made of that; RestRise what becomes of food that is out of
// the oven. Where the surface itself stays within some 10 °C of the target, in a slow
// oven and damp air, the forecast is early by up to a half of what remains.
//
// # Reading order
//
// oven.go; roast.go (the types), forecast.go, usable.go, line.go; rest.go.
package heat
