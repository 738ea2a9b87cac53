package tui

import (
	"slices"
	"strings"
)

// Keys that wait. While something is being written down, the next thing cannot be
// told yet: its key, and all after it, wait their turn and are then pressed in
// their order, each as of when it was really pressed.

// MostWaiting is how many keys wait at most; more are refused, visibly.
const MostWaiting = 12

// waits puts a key that cannot be taken yet behind those before it. It reports
// whether the key is dealt with.
func (m *Model) waits(k KeyMsg) bool {
	if m.writing == nil || m.following {
		return false
	}
	switch n := len(m.queue); {
	case n == 0 && !m.wantsToTell(k):
		return false
	case n > 0 && k.Key == "ctrl+c":
		m.queue = nil
		return false
	case n > 0 && k.Key == "esc":
		m.tell("what waited was dropped: " + spelledKeys(m.queue))
		m.queue = nil
	case n >= MostWaiting:
		m.refused = true
	case n > 0 && k.Key == m.queue[n-1].Key && k.Key == "space" && k.Real.Sub(m.queue[n-1].Real) < Repeat:
		m.queue[n-1].Real = k.Real // held down, or touched twice
	default:
		m.queue = append(slices.Clip(m.queue), k)
	}
	return true
}

// wantsToTell reports whether a key would tell something, were nothing being
// written.
func (m *Model) wantsToTell(k KeyMsg) bool {
	b := find(m.mode, k.Key)
	return b != nil && m.typing() == nil && b.Off != nil && b.Off(m) == stillWriting && (!b.Rehearsal || m.rehearsing)
}

// pressWaiting presses the keys that waited, until one of them is being written.
func (m *Model) pressWaiting() []Effect {
	var effects []Effect
	for len(m.queue) > 0 && m.writing == nil {
		k := m.queue[0]
		m.queue = m.queue[1:]
		effects = append(effects, m.press(k)...)
		m.watchShown()
	}
	m.refused = m.refused && len(m.queue) > 0
	return effects
}

// waitingLine says what is being written and which keys wait for it; empty where
// none does.
func (m *Model) waitingLine() string {
	if len(m.queue) == 0 || m.writing == nil {
		return ""
	}
	text := "writing " + m.writing.said + "; then: " + spelledKeys(m.queue)
	if m.refused {
		text = "writing: no more keys until it is written; then: " + spelledKeys(m.queue)
	}
	return text
}

func spelledKeys(keys []KeyMsg) string {
	out := make([]string, len(keys))
	for i := range keys {
		out[i] = keys[i].Key
	}
	return strings.Join(out, " ")
}
