package main

import (
	"fmt"
	"math/rand/v2"
	"slices"
)

// stepsADish is how many steps every recipe has.
const stepsADish = 6

// made is one step of a made dish: its line in the plan file, and what it asks
// for, in minutes.
type made struct {
	line string
	work int // of a cook who can do nothing else
	bake int // in an oven
	long int // at least, from start to end
}

// recipe draws the steps of one dish. All are of our own invention: the usual
// kinds of step in the usual order, six each.
type recipe func(r *rand.Rand) []made

// What each kind of course is made of. Recipes are dealt from these decks, none
// again before the deck is through: a cook does not plan three roasts for one oven.
var (
	starters = []recipe{soup, bread, salad}
	mains    = []recipe{roast, gratin, vegetables, vegetables, braise}
	sweets   = []recipe{cream, tart, cake}
)

// deck deals recipes in a random order, over and over.
type deck struct {
	all, left []recipe
}

func (d *deck) deal(r *rand.Rand) recipe {
	if len(d.left) == 0 {
		d.left = slices.Clone(d.all)
		r.Shuffle(len(d.left), func(i, j int) { d.left[i], d.left[j] = d.left[j], d.left[i] })
	}
	next := d.left[0]
	d.left = d.left[1:]
	return next
}

// between draws a number of minutes.
func between(r *rand.Rand, least, most int) int { return least + r.IntN(most-least+1) }

// line writes a step; more is the rest of its keys.
func line(id, length, more string) string {
	if more != "" {
		more = ", " + more
	}
	return fmt.Sprintf("{id: %s, do: Step %s, %s%s}", id, id, length, more)
}

// hands is work of so many minutes for one cook.
func hands(r *rand.Rand, id string, least, most int, more string) made {
	m := between(r, least, most)
	return made{line: line(id, fmt.Sprintf("takes: %dm", m), more), work: m, long: m}
}

// burner stands on a burner: the kitchen minds it, or it ties a cook.
func burner(r *rand.Rand, id string, least, most int, tied bool, more string) made {
	m := between(r, least, most)
	size := []string{"any", "small", "large"}[r.IntN(3)]
	s := made{long: m}
	keys := "burner: " + size
	switch {
	case tied:
		keys += ", hands: tied"
		s.work = m
	case r.IntN(3) == 0:
		keys += ", hands: free"
	}
	if more != "" {
		keys += ", " + more
	}
	s.line = line(id, fmt.Sprintf("takes: %dm (%dm-%dm)", m, m-m/6, m+m/4), keys)
	return s
}

// bake is in the oven, at any temperature from lo to hi °C.
func bake(r *rand.Rand, id string, least, most, lo, hi int, more string) made {
	m := between(r, least, most)
	lo += 5 * r.IntN(2)
	hi -= 5 * r.IntN(2)
	space := "1"
	if r.IntN(3) == 0 {
		space = "half"
	}
	return made{line: line(id, fmt.Sprintf("takes: %dm (%dm-%dm)", m, m-m/8, m+m/4),
		fmt.Sprintf("oven: {at: %d-%dC, space: %s}, %s", lo, hi, space, more)), bake: m, long: m}
}

// wait is stretched by the cook within limits.
func wait(r *rand.Rand, id string, least, most int, upTo, more string) made {
	m := between(r, least, most)
	return made{line: line(id, fmt.Sprintf("waits: %dm to %s", m, upTo), more), long: m}
}

func soup(r *rand.Rand) []made {
	return []made{
		hands(r, "chop", 8, 15, "keeps: 6h in fridge"),
		burner(r, "sweat", 5, 8, true, "keeps: 5m"),
		burner(r, "simmer", 25, 45, false, "vessel: pot, keeps: 2h"),
		hands(r, "blend", 5, 8, "vessel: pot, uses: [blender], keeps: 2h"),
		burner(r, "warm", 8, 12, false, "vessel: pot, keeps: 10m (30m at most)"),
		hands(r, "ladle", 3, 5, "vessel: pot, keeps: 5m (15m at most)"),
	}
}

func bread(r *rand.Rand) []made {
	return []made{
		hands(r, "knead", 10, 15, "keeps: 10m"),
		wait(r, "prove", 45, 75, "3h", ""),
		hands(r, "shape", 6, 12, "keeps: 20m (50m at most)"),
		bake(r, "bake", 14, 25, 200, 225, "keeps: 30m"),
		wait(r, "cool", 10, 20, "2h", ""),
		hands(r, "slice", 4, 6, "keeps: 30m"),
	}
}

func salad(r *rand.Rand) []made {
	return []made{
		hands(r, "wash", 5, 10, "keeps: 4h"),
		hands(r, "cut", 8, 12, "keeps: 3h in fridge"),
		burner(r, "toast", 5, 8, true, "after: none, keeps: 1h"),
		hands(r, "dressing", 4, 6, "after: none, keeps: 6h"),
		hands(r, "toss", 3, 5, "after: [cut, toast, dressing], keeps: 15m"),
		hands(r, "portion", 3, 5, "keeps: 10m"),
	}
}

func roast(r *rand.Rand) []made {
	return []made{
		hands(r, "season", 8, 15, "keeps: 1d in fridge"),
		bake(r, "roast", 50, 110, 150, 175, `remind: "every 40m: baste", keeps: 10m`),
		wait(r, "rest", 10, 20, "45m", "at_once: true"),
		burner(r, "sauce", 12, 20, false, "after: none, keeps: 20m (45m at most)"),
		hands(r, "carve", 6, 10, "after: [rest, sauce], uses: [carving board], keeps: 10m (20m at most)"),
		hands(r, "plate", 3, 6, "keeps: 5m (20m at most)"),
	}
}

func braise(r *rand.Rand) []made {
	return []made{
		hands(r, "cut", 10, 18, "keeps: 4h in fridge"),
		burner(r, "sear", 6, 12, true, "keeps: 10m"),
		bake(r, "braise", 60, 110, 140, 165, "keeps: 20m (1h at most)"),
		burner(r, "reduce", 8, 15, false, "keeps: 15m (40m at most)"),
		hands(r, "garnish", 3, 5, "after: none, keeps: 1h"),
		hands(r, "serve", 3, 5, "after: [reduce, garnish], keeps: 5m (15m at most)"),
	}
}

func gratin(r *rand.Rand) []made {
	return []made{
		hands(r, "peel", 10, 18, "keeps: 3h"),
		burner(r, "boil", 12, 18, false, "keeps: 30m"),
		hands(r, "layer", 8, 12, "keeps: 4h in fridge"),
		bake(r, "bake", 25, 40, 180, 205, "keeps: 10m (30m at most)"),
		wait(r, "stand", 5, 10, "30m", "at_once: true"),
		hands(r, "garnish", 2, 4, "keeps: 5m (20m at most)"),
	}
}

func vegetables(r *rand.Rand) []made {
	return []made{
		hands(r, "trim", 8, 12, "keeps: 3h"),
		burner(r, "blanch", 5, 8, false, "keeps: 1h"),
		burner(r, "glaze", 5, 8, true, "keeps: 10m (25m at most)"),
		burner(r, "sauce", 8, 12, false, "after: none, keeps: 30m (1h at most)"),
		hands(r, "combine", 2, 4, "after: [glaze, sauce], keeps: 5m (15m at most)"),
		hands(r, "spoon", 2, 4, "keeps: 5m (15m at most)"),
	}
}

func cream(r *rand.Rand) []made {
	return []made{
		hands(r, "measure", 4, 6, "keeps: 2h"),
		burner(r, "cook", 8, 12, true, "keeps: 10m"),
		hands(r, "pour", 3, 5, "keeps: 30m"),
		wait(r, "set", 90, 150, "1d in fridge", ""),
		burner(r, "compote", 10, 15, false, "after: none, keeps: 1d in fridge"),
		hands(r, "decorate", 4, 6, "after: [set, compote], keeps: 20m"),
	}
}

func tart(r *rand.Rand) []made {
	return []made{
		hands(r, "rub", 8, 12, "keeps: 30m"),
		wait(r, "chill", 30, 45, "1d in fridge", ""),
		hands(r, "line", 8, 10, "keeps: 1h in fridge"),
		bake(r, "bake", 25, 40, 170, 195, "keeps: 1h"),
		wait(r, "cool", 20, 30, "4h", ""),
		hands(r, "slice", 4, 6, "keeps: 30m"),
	}
}

func cake(r *rand.Rand) []made {
	return []made{
		hands(r, "mix", 10, 15, "keeps: 15m"),
		bake(r, "bake", 30, 50, 160, 185, "keeps: 15m"),
		wait(r, "cool", 30, 40, "6h", ""),
		hands(r, "icing", 6, 10, "after: none, keeps: 4h"),
		hands(r, "ice", 5, 8, "after: [cool, icing], keeps: 4h"),
		hands(r, "plate", 3, 5, "keeps: 20m"),
	}
}
