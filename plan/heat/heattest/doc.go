// Package heattest is a roast to test forecasts on: conduction of heat in a slab, a
// long cylinder or a sphere, as differences in space and time (solid.go), with a
// surface that convection warms and evaporation cools (surface.go). The series
// that textbooks give for a dry surface (series.go) checks it. For tests only;
// it shares nothing with what it tests.
package heattest
