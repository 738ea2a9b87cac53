// Package ingredient reads the lines in which people write down ingredients:
// "2½ lb waxy potatoes, peeled", "1 (14 oz) can tomatoes", "a pinch of nutmeg",
// "3–4 cloves garlic". The grammar is tolerant: every line can be read, and what
// is not understood stays in words. No word is ever lost.
//
// It knows no dish, no shop and no file.
//
// # Reading order
//
// line.go says what a line is made of, token.go cuts it into words and numbers, parse.go
// begins with the amount (quantity.go, amount.go, again.go) and goes on with the rest
// (rest.go); words.go holds the words it knows, key.go when two items are the same thing.
package ingredient
