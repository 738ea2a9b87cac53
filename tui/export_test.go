package tui

import (
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/walk"
)

// What tests of the whole screen see of its inside.

func Bindings() []Binding { return bindings }
func Modes() []Mode       { return modes }
func Aliases() map[Mode]map[string]Action {
	return aliases
}
func Find(m Mode, key string) *Binding { return find(m, key) }
func (m Model) Message() string        { return m.message.text }
func (m Model) Typed() string          { return m.prompt.line.text }
func (m Model) Moment() run.Moment     { return m.moment }
func (m Model) Question() string       { return m.confirm.text }
func (m Model) ListAt() int            { return m.listAt }

// With returns the model in a mode, as if the cook had gone there.
func (m Model) With(mode Mode) Model {
	m.mode = mode
	return m
}

// DrawPieces draws a step in a lane, w cells wide with now at its middle, once for
// each way a step can stand.
func (m Model) DrawPieces(name string, w int) map[string]string {
	names := map[pieceKind]string{pieceAhead: "ahead", pieceGoing: "going", pieceOver: "over", pieceAssumed: "assumed",
		pieceDone: "done", pieceTable: "at-table", pieceIn: "put-in", pieceOut: "taken-out", pieceStir: "stirred", pieceDial: "oven-set"}
	out := map[string]string{}
	for how, s := range names {
		l := newLine(m.th.Theme, w)
		m.piece(l, &piece{name: name, how: how}, scale{cells: w, now: w / 2}, 0, w, false)
		out[s] = l.done()
	}
	return out
}

// Marked is the text of the row that the keys act on.
func (m Model) Marked() string {
	r, ok := m.chosen()
	if !ok {
		return ""
	}
	return m.rowText(&r)
}
func (m Model) Choices() []string {
	out := make([]string, len(m.choices.of))
	for i := range m.choices.of {
		out[i] = choiceKey(i) + " " + m.choices.of[i].says()
	}
	return out
}

// Missing is what a walk-through has not found so far, Told a view as lines.
func (m Model) Missing() []walk.Missing { return m.walk.ticks.Missing(m.walk.stops) }
func (m Model) Told() []string          { return m.told() }
