// Package measure holds the measures of the kitchen: mass, volume in three systems,
// the scales of ovens, the weight of a cup of flour. It converts between them and
// writes amounts the way a cook can measure them. It knows no plan beyond its
// temperatures.
//
// Units are exact by definition (the inch, the pound, the two gallons), and each
// row of a table bears its source and how well that was seen (package source). A
// volume turned into a mass goes through a density, and is never more than "about".
//
// # Reading order
//
// unit.go has the units and their definitions, convert.go turns one into another,
// spell.go writes amounts in fractions that can be measured, density.go has the
// weights of foods, oven.go gas marks and fan ovens.
package measure
