package theme

import "example.org/kettledrum/plan/run"

// Piece is what a step in a lane is drawn with: its left end, its middle, its right
// end, and all of it where it has only one cell.
type Piece [4]string

// Symbols is one set of signs. Each is one cell wide but the bars' parts, which
// are one cell each, and Classes, which may be two.
type Symbols struct {
	Classes   [6]string // of the cue classes, in their order
	Going     string
	Over      string // past its end
	Assumed   string // nobody said so
	Done      string
	Selected  string
	Filled    string // of a bar
	Half      string
	Track     string
	Rule      string
	Dot       string // between two facts
	More      string // text was cut here
	Cursor    string
	Up, Down  string
	Separator string // between columns

	// Of the lanes. How a step stands shows without colour, however short it is.
	Ahead, Under, Late, Guessed, Past, Table, Chosen Piece
	Touches                                          [4]Piece // put in, taken out, stirred, the oven set

	Now, NowLine string
	Slack        string
	Serve        string
	Levels       [8]string // of a curve, low to high
}

// touch is a piece of one sign: it is a minute, and never longer than a cell.
func touch(sign string) Piece { return Piece{sign, sign, sign, sign} }

var unicodeSet = Symbols{
	Classes: [6]string{run.Danger: "▲", run.LateCue: "◆", run.Look: "◉", run.Act: "►", run.Soon: "○", run.Note: "•"},
	Going:   "●", Over: "◉", Assumed: "?", Done: "✓", Selected: "›",
	Filled: "━", Half: "╸", Track: "─", Rule: "─", Dot: "·", More: "…", Cursor: "▏", Up: "↑", Down: "↓", Separator: "│",
	Ahead: Piece{"├", "─", "┤", "▪"}, Under: Piece{"┣", "━", "┫", "■"}, Late: Piece{"╋", "╋", "╋", "◉"}, Guessed: Piece{"┠", "╍", "┨", "?"},
	Past: Piece{"┊", "┄", "┊", "▫"}, Table: Piece{"╶", "╌", "╴", "╌"}, Chosen: Piece{"╞", "═", "╡", "═"},
	Touches: [4]Piece{touch("↓"), touch("↑"), touch("↻"), touch("◇")},
	Now:     "▼", NowLine: "│", Slack: "·", Serve: "◆",
	Levels: [8]string{"▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"},
}

var asciiSet = Symbols{
	Classes: [6]string{run.Danger: "!!", run.LateCue: "!", run.Look: "*", run.Act: ">", run.Soon: "o", run.Note: "-"},
	Going:   "o", Over: "*", Assumed: "?", Done: "+", Selected: ">",
	Filled: "=", Half: "-", Track: ".", Rule: "-", Dot: "-", More: "..", Cursor: "_", Up: "up", Down: "down", Separator: "|",
	Ahead: Piece{"[", "-", "]", "I"}, Under: Piece{"<", "=", ">", "H"}, Late: Piece{"*", "*", "*", "*"}, Guessed: Piece{"?", "?", "?", "?"},
	Past: Piece{"(", ".", ")", "i"}, Table: Piece{"_", "_", "_", "_"}, Chosen: Piece{"{", "#", "}", "#"},
	Touches: [4]Piece{touch("v"), touch("^"), touch("%"), touch("o")},
	Now:     "|", NowLine: "|", Slack: "~", Serve: "*",
	Levels: [8]string{".", ":", "-", "=", "+", "*", "#", "@"},
}

// words says each cue class in one word.
var words = [6]string{
	run.Danger: "DANGER", run.LateCue: "LATE", run.Look: "LOOK", run.Act: "NOW", run.Soon: "SOON", run.Note: "NOTE",
}

// Word returns the word for a cue class, at most six cells wide.
func Word(c run.Class) string { return words[c] }
