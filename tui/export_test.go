package tui

import "example.org/kettledrum/plan/run"

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
