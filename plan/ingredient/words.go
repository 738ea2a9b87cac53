package ingredient

import "strings"

// pack is a word for what is counted where that is not the item itself.
type pack struct {
	one  string
	kind packKind
}

type packKind int

const (
	container packKind = iota // holds a stated amount: "400 g tin"
	part                      // a part of a plant or a piece: "clove", "slice"
	vague                     // a cook's gesture: "handful"; may stand without a number
)

// packs are those words, each under all its spellings.
var packs = map[string]pack{}

// Words of packs. A bar parts the singular from more spellings.
const (
	containers = `can|cans tin|tins jar|jars packet|packets|pkt|pkts package|packages|pkg|pkgs pack|packs bag|bags box|boxes
		bottle|bottles carton|cartons tub|tubs tube|tubes block|blocks bar|bars loaf|loaves container|containers sachet|sachets
		envelope|envelopes pot|pots punnet|punnets stick|sticks case|cases jug|jugs tray|trays roll|rolls sheet|sheets
		piece|pieces|pc|pcs chunk|chunks slab|slabs joint|joints wheel|wheels wedge|wedges ball|balls cube|cubes log|logs
		head|heads bunch|bunches|bn bulb|bulbs`
	parts = `clove|cloves sprig|sprigs stalk|stalks rib|ribs slice|slices rasher|rashers leaf|leaves ear|ears strip|strips
		fillet|fillets rack|racks spear|spears stem|stems branch|branches frond|fronds segment|segments round|rounds floret|florets
		portion|portions serving|servings side|sides`
	gestures = `handful|handfuls splash|splashes drizzle|drizzles knob|knobs glug|glugs squeeze|squeezes grating|gratings
		sprinkle|sprinkles|sprinkling twist|twists grind|grinds dollop|dollops touch drop|drops scoop|scoops spoonful|spoonfuls
		glass|glasses mug|mugs shot|shots dusting thumb|thumbs`
)

func init() {
	for k, list := range [...]string{container: containers, part: parts, vague: gestures} {
		for _, w := range strings.Fields(list) {
			spellings := strings.Split(w, "|")
			for _, s := range spellings {
				packs[s] = pack{spellings[0], packKind(k)}
			}
		}
	}
}

// PackMany returns the plural of a pack: "loaves".
func PackMany(one string) string {
	for _, list := range [...]string{containers, parts, gestures} {
		for _, w := range strings.Fields(list) {
			if s := strings.Split(w, "|"); s[0] == one && len(s) > 1 {
				return s[1]
			}
		}
	}
	return one
}

// behind are the parts that also stand behind what they are parts of, "3 garlic
// cloves", and of what alone; empty: of anything.
var behind = map[string]string{"clove": "garlic", "sprig": "", "stalk": "", "rib": "celery", "bulb": "", "bunch": ""}

// aboutWords say that a number is not exact; some are of two words.
var aboutWords = set(`about around approximately approx roughly circa ca almost nearly ~ generous scant heaped heaping
	rounded`)

// beforeUnit are words between a number and its unit.
var beforeUnit = set(`level heaped heaping rounded scant generous large small big good medium full whole fat healthy tiny little
	hefty thick thin packed flat`)

// numbers are numbers in words.
var numbers = map[string]float64{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "sixteen": 16, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50,
}

// numberless are amounts without a number; they come before "of" or the item.
var numberless = map[string]bool{
	"a few": true, "few": true, "several": true, "some": true, "a little": true, "a bit": true, "plenty": true, "lots": true,
	"a lot": true, "any": false, "enough": true, "a small amount": true,
}

// adjectives tell how a thing is and not what: where nothing else stands before a
// comma, the name of the thing comes after it.
var adjectives = set(`boneless skinless skin-on bone-in large small medium big extra-large jumbo ripe firm fresh freshly dried dry cold warm hot
	ice-cold lukewarm cooked uncooked raw frozen thawed unsalted salted low-fat full-fat good quality good-quality organic free-range
	thick thin thick-cut thin-cut lean extra-lean heavy light dark fine coarse finely coarsely roughly thinly lightly very soft hard
	young old tender crisp crusty day-old stale whole halved ground toasted untoasted roasted smoked canned tinned pitted seedless
	trimmed peeled unpeeled chopped sliced diced minced grated shredded crumbled crushed packed loosely tightly softened melted
	flat-leaf curly plain natural unsweetened sweetened extra extra-virgin untreated unwaxed blanched cubed torn rinsed drained washed boned
	deboned skinned quick-cooking old-fashioned medium-sized small-sized large-sized bite-size bite-sized leftover`)

// done are what was done to a thing: where one of them ends a line, it is a note.
var done = set(`peeled chopped sliced diced minced grated shredded crumbled crushed halved quartered cubed torn rinsed drained washed
	trimmed softened melted beaten whisked sifted toasted pitted stoned seeded deseeded cored cooked cooled thawed divided separated
	zested juiced squeezed mashed smashed bruised picked stemmed hulled shelled shucked debearded scrubbed pricked scored boned
	deboned skinned segmented julienned cut broken packed chilled blanched soaked pounded butterflied tied removed reserved snipped
	optional defrosted warmed heated slivered flaked stripped sawn mixed`)

// adverbs stand before such a word.
var adverbs = set(`finely coarsely roughly thinly thickly very lightly well freshly loosely tightly then and or not`)

// noteStarts begin a note wherever they stand in a line.
var noteStarts = [][]string{
	{"to", "taste"}, {"to", "serve"}, {"to", "garnish"}, {"to", "finish"}, {"to", "decorate"}, {"to", "season"}, {"to", "bind"},
	{"to", "cover"}, {"to", "dust"}, {"to", "coat"}, {"to", "fry"}, {"to", "grease"}, {"to", "drizzle"}, {"to", "sprinkle"},
	{"to", "scatter"}, {"to", "brush"}, {"to", "thin"}, {"to", "your"}, {"to", "roll"},
	{"for"}, {"plus"}, {"+"}, {"as", "needed"}, {"as", "required"}, {"as", "desired"}, {"if"}, {"at", "room"},
	{"cut", "into"}, {"cut", "in"}, {"cut", "crosswise"}, {"cut", "lengthwise"}, {"preferably"}, {"such", "as"}, {"or", "more"}, {"or", "less"},
	{"or", "to"}, {"or", "as"}, {"or", "so"}, {"with"}, {"without"}, {"about"}, {"from", "the"}, {"from", "a"}, {"depending"},
	{"per", "person"}, {"per", "guest"}, {"per", "head"}, {"a", "head"}, {"each", "guest"}, {"ideally"}, {"each", "about"}, {"optional"},
}

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}
