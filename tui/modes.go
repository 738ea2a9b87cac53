package tui

// Mode says what the keys mean at the moment.
type Mode int

// Modes of the screen.
const (
	Main    Mode = iota // the cook-day
	List                // what nobody answered while the cook was away
	Confirm             // one question, yes or no
	Prompt              // something is being typed
	Help                // the keys, in full
)

// String returns the mode's name.
func (m Mode) String() string { return [...]string{"main", "list", "confirm", "prompt", "help"}[m] }

// modes are all of them, for tests and the help.
var modes = []Mode{Main, List, Confirm, Prompt, Help}

// press handles a key in the mode at hand: what it types, or the action that
// the table of keys has for it.
func (m *Model) press(k KeyMsg) []Effect {
	m.lastKey = k.Real
	if m.mode == Prompt && m.prompt.line.takes(k) {
		m.prompt.line = m.prompt.line.typed(k)
		m.message = note{}
		return nil
	}
	b := find(m.mode, k.Key)
	if b == nil {
		m.message = note{}
		return nil
	}
	if k.Key == "space" && (m.mode == Main || m.mode == List) && m.tooSoon(k) {
		return nil
	}
	m.message = note{}
	if b.Rehearsal && !m.rehearsing {
		m.tell("that key is for rehearsals")
		return nil
	}
	if b.Off != nil {
		if why := b.Off(m); why != "" {
			m.tell(why)
			return nil
		}
	}
	return m.do(b.Action, k)
}
