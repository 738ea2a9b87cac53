package tui

import (
	"fmt"
	"slices"
	"time"

	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/tui/theme"
)

// Whether cues are heard: the sound at the start, the key that makes it louder, and
// what the title says when there is none.

// Sound is how cues are heard when a screen begins.
type Sound struct {
	Volume int // in percent
	// Muted: nothing rings in this run.
	Muted bool
	// Ask rings once when a run begins, and asks whether that was heard.
	Ask bool
}

const (
	// HearAskFor is how long the screen asks whether the sound was heard.
	HearAskFor = 30 * time.Second
	// louderBy is what one press of the key gives, in percent.
	louderBy = 10
	// testClass is the class whose sound is played for a test: the one that is
	// worst to miss of those that every dinner has.
	testClass = run.Look
)

// greet plays the sound once when a run begins and nothing is due.
func (m *Model) greet() []Effect {
	begun := slices.ContainsFunc(m.state.Events, func(e run.Event) bool { return e.Kind != run.Opened && e.Kind != run.Adopted })
	if !m.sound.Ask || m.sound.Muted || begun || len(m.moment.Cues) > 0 {
		return nil
	}
	m.hearing = true
	if m.plain { // has no line for questions
		m.tell("can you hear this over the hood? if not: b")
	}
	return m.sample()
}

// sample plays the sound of a test. No cue rings on top of it but danger.
func (m *Model) sample() []Effect {
	m.bell = m.bell.Sounded(m.real)
	return []Effect{Ring{Class: testClass}}
}

// louder plays the sound again, louder as long as it can be.
func (m *Model) louder() []Effect {
	full := m.sound.Volume >= fullVolume
	m.sound.Volume = min(fullVolume, m.sound.Volume+louderBy)
	m.hearing = true
	if full {
		m.tell("that is as loud as it gets here: turn the computer up")
	} else {
		m.tell(fmt.Sprintf("volume %d %%: can you hear this over the hood?", m.sound.Volume))
	}
	return append([]Effect{SetVolume{m.sound.Volume}}, m.sample()...)
}

// fullVolume is the greatest volume, in percent.
const fullVolume = 100

func offSound(m *Model) string {
	if m.sound.Muted {
		return "the sounds are off for this run"
	}
	return ""
}

// asksHeard reports whether the screen asks if the sound was heard: in the first half
// minute, until a key was pressed but that for louder.
func (m *Model) asksHeard() bool {
	return m.hearing && m.real.Sub(m.started) < HearAskFor && m.mode.view()
}

// heardLine is the question.
func (m *Model) heardLine(l *line) *line {
	if m.soundless {
		return l.put(theme.Waiting, "This computer plays no sound: only the terminal's bell rings")
	}
	return l.put(theme.Waiting, "Can you hear this over the hood? If not: ").put(theme.Hands, "b").put(theme.Waiting, " plays it louder")
}

// soundMark tells in the title when nothing is heard.
func (m *Model) soundMark() string {
	switch {
	case m.sound.Muted:
		return "sound off"
	case m.bell.Silent(m.real):
		return "quiet " + span(m.bell.SilentFor(m.real))
	case m.soundless:
		return "no sound"
	}
	return ""
}
