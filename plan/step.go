package plan

import "time"

// Step is one thing to do or to wait for.
type Step struct {
	// ID is the full reference, "dish/step": lower case with hyphens.
	ID   string
	Do   string // what the cook reads, short, in the imperative
	Dish int
	// Length is how long the step takes or waits.
	Length Length
	Hands  Hands
	By     int // cook who must do it, -1 for whoever is there
	Oven   *Bake
	Burner *BurnerUse
	Uses   []Use
	// After are the steps this one follows; empty for the start of a branch.
	After []Link
	// AtOnce: starts the moment the last of After ends, and without a touch.
	AtOnce bool
	Keeps  Keep
	Until  Until
	Note   string
	// Vessel is a tool that holds the food: taken from the start of this step
	// through the gap to the next step of the dish with the same vessel. nil: none.
	Vessel *Use
	// Cold is the cold place in which an elastic step stands, empty for none, and
	// ColdPlaces how many places it takes there.
	Cold       string
	ColdPlaces int
	// Reminds are touches while the step is going.
	Reminds []Remind
	// Optional: a remedy may drop it.
	Optional bool
	// Accept are codes of cautions that the cook has seen and accepts, each with
	// the reason.
	Accept []Accepted
	Pos    Pos
}

// Remind is a touch while a step is going.
type Remind struct {
	When RemindWhen
	For  time.Duration // of Every and BeforeEnd
	Text string        // what to do: "baste"
}

// RemindWhen says when a reminder comes.
type RemindWhen int

// When a reminder comes.
const (
	Every     RemindWhen = iota // at each For after the start, before the end
	Halfway                     // half of the length after the start, rounded down
	BeforeEnd                   // For before the end
)

// Accepted is a caution that the cook has seen.
type Accepted struct {
	Code, Reason string
}

// Length is how long a step lasts. An uncertain length (takes) is decided by
// the food: Shortest ≤ Likely ≤ Longest. An elastic one (waits) is decided by
// the cook: anything from Shortest to Longest, and Likely is Shortest.
type Length struct {
	Elastic                   bool
	Shortest, Likely, Longest time.Duration
}

// Forever is the greatest of an elastic length without a limit ("at least 2h").
const Forever = time.Duration(1<<63 - 1)

// Planned returns the length that a timetable plans with: the likely one, in
// whole minutes rounded up; for an elastic length its least.
func (l Length) Planned() time.Duration { return time.Duration(Minutes(l.Likely)) * time.Minute }

// Hands is what a step asks of a cook.
type Hands int

// What a step asks of a cook.
const (
	Free Hands = iota // nothing but touches
	Near              // somebody in the kitchen minds it
	Busy              // can be left for a minute
	Tied              // cannot be left
)

// String returns the word of the plan file.
func (h Hands) String() string { return [...]string{"free", "near", "busy", "tied"}[h] }

// Working reports whether the step takes one cook from start to end.
func (h Hands) Working() bool { return h == Busy || h == Tied }

// Bake is a step's need of an oven.
type Bake struct {
	In int // index of the oven, -1 for any
	// At is the temperature as asked: of a range its middle.
	At Celsius
	// Lo and Hi are the temperatures the step accepts. A single temperature
	// accepts DialError on either side.
	Lo, Hi Celsius
	Space  int // half shelves
	// Shut: nothing goes in or out of the oven meanwhile.
	Shut bool
	// Grill: the heat from above; it shares the oven with nothing but Grill. At,
	// Lo and Hi are GrillHeat then.
	Grill bool
}

// DialError is how far an oven may be from a single asked temperature: a dial
// is no better than that.
const DialError Celsius = 5

// GrillHeat is the temperature taken for a grill, and GrillError how far from it
// the oven may be: it is the heat from above that counts. From memory.
const (
	GrillHeat  Celsius = 250
	GrillError Celsius = 20
)

// BurnerSize is the size of a burner.
type BurnerSize int

// Sizes of burners. A large burner can do a small one's work.
const (
	AnyBurner BurnerSize = iota
	Small
	Large
)

// String returns the word of the plan file.
func (b BurnerSize) String() string { return [...]string{"any", "small", "large"}[b] }

// BurnerUse is a step's need of burners.
type BurnerUse struct {
	Size  BurnerSize
	Count int
}

// Use is a step's need of Count pieces of a tool.
type Use struct {
	Tool  int
	Count int
}

// Link says that a step follows another: it starts at least Min after that one
// ends and, where HasMax, at most Max after it.
type Link struct {
	Step   int
	Min    time.Duration
	Max    time.Duration
	HasMax bool
	Pos    Pos
}

// KeepKind says how binding a keep is.
type KeepKind int

// Kinds of keep.
const (
	Freely KeepKind = iota // waits as long as it likes
	// Liking: a minute over For costs as much as a minute late, and it may not
	// be longer than AtMost.
	Liking
	// Limit: not longer than For.
	Limit
)

// Keep is how long what a step made may wait before the next step takes it.
type Keep struct {
	Kind   KeepKind
	For    time.Duration
	AtMost time.Duration // of a liking; equals For of a limit
	Place  string        // "fridge", "freezer" or "oven"; empty for the counter
	Places int           // how many cold places it takes
	// Warm is the oven that keeps it, where Place is "oven": it takes the step's
	// space there, at any temperature from Lo to Hi.
	Warm    *Bake
	Assumed bool // the plan says nothing; a default
}

// Until is the sign that a step is done: an internal temperature, something to
// see, or both.
type Until struct {
	Temp    Celsius
	HasTemp bool
	Sign    string
}

// Signs are what to look for, in words: the temperature first.
func (u Until) Signs(units Units) []string {
	var out []string
	if u.HasTemp {
		out = append(out, units.Temp(u.Temp))
	}
	if u.Sign != "" {
		out = append(out, u.Sign)
	}
	return out
}
