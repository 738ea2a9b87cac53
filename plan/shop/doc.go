// Package shop makes the shopping list of a plan: what its dishes take, scaled to
// the guests, summed across dishes in measures of the kitchen, by when it is needed;
// what to take out of the freezer and when; and what does not scale with the rest.
// It computes and prints nothing.
//
// # Reading order
//
// list.go says what a list is, need.go reads and scales the lines, sum.go adds up
// what is the same thing and words.go writes it, window.go says when it may be bought,
// trip.go sorts it into as few trips as will do; thaw.go, scale.go and batch.go are the
// further parts. Water is not bought.
//
// Sources: how long raw meat and fish keep, and thawing, are package safety's charts;
// weights of a cup are package measure's; what does not scale is common practice.
package shop
