package tui

import "example.org/kettledrum/plan"

// Why a key does nothing right now, and what the keys are called that do
// different things at different moments.

// onlyFollows is what a screen says that shows what another program conducts.
const onlyFollows = "this screen only follows: tell it where the dinner is conducted"

// stillWriting is why nothing more can be told yet: the key waits.
const stillWriting = "still writing the last thing down"

func offWriting(m *Model) string {
	if m.following {
		return onlyFollows
	}
	if m.writing != nil {
		return stillWriting
	}
	return ""
}

func offAnswer(m *Model) string {
	if len(m.moment.Cues) > 0 {
		return offWriting(m)
	}
	if len(m.moment.Next) > 0 {
		return "nothing to answer: the next cue comes at " + m.dayTime(m.moment.Next[0].At)
	}
	return "nothing to answer"
}

func offMore(m *Model) string {
	if _, ok := m.goingTarget(); !ok {
		if _, one := m.theStep(); one {
			return "that step is over: c corrects its time"
		}
		if m.mode == Far && len(m.moment.Going) > 0 {
			return "that is not going: esc, and mark the step that takes longer"
		}
		return "nothing is going that could take longer"
	}
	return offWriting(m)
}

func offSelected(m *Model) string {
	if m.mode == Lanes || m.mode == StepView {
		return offDone(m)
	}
	if len(m.rows()) == 0 && m.markedStep() < 0 {
		return "nothing is due and nothing is going"
	}
	return offWriting(m)
}

func offRows(m *Model) string {
	switch {
	case m.mode == Help, m.mode == Log, m.mode == Finding, m.mode == Days, m.mode == Lanes, m.mode == Choices, m.mode == Debrief, m.mode == Walk, m.mode == WalkEnd:
		return ""
	case m.mode == List:
		return offList(m)
	case len(m.rows()) == 0:
		return "nothing is due and nothing is going: no row to mark"
	}
	return ""
}

func offUndo(m *Model) string {
	if _, ok := m.state.LastUndoable(); !ok {
		return "nothing to take back"
	}
	return offWriting(m)
}

func offList(m *Model) string {
	if len(m.moment.Unconfirmed) == 0 {
		return "everything is answered"
	}
	return offWriting(m)
}

func offNext(m *Model) string {
	if m.hold && m.held() {
		return "the clock waits for you: space answers, h runs through"
	}
	if _, ok := m.nextAt(); !ok {
		return "no cue is to come"
	}
	return ""
}

func answerLabel(m *Model) string {
	if len(m.moment.Cues) == 0 {
		return "nothing due"
	}
	if c := &m.moment.Cues[0]; c.Label != "" {
		return c.Label
	}
	return "seen"
}

// offDone says why the opened step cannot be called done, or left out.
func offDone(m *Model) string {
	if i, ok := m.theStep(); ok {
		switch m.state.Steps[i].Status {
		case plan.Done:
			return "it is done already: c corrects its time"
		case plan.Skipped:
			return "it was left out: undo that first"
		}
	}
	return offStep(m)
}

func largerLabel(m *Model) string {
	if m.farSize == farSizes-1 {
		return "smaller"
	}
	return "larger"
}

func moveLabel(m *Model) string {
	switch m.mode {
	case Help, Log, Days, Debrief, WalkEnd:
		return "scroll"
	}
	return "move mark"
}

func yesLabel(m *Model) string {
	if m.confirm.yes != "" {
		return m.confirm.yes
	}
	return "yes"
}

func pauseLabel(m *Model) string {
	if m.paused {
		return "go on"
	}
	return "pause"
}

func holdLabel(m *Model) string {
	if m.hold {
		return "run through"
	}
	return "hold at cues"
}

func backLabel(m *Model) string {
	switch m.mode {
	case Confirm:
		return "no"
	case Prompt:
		return "drop it"
	case Walk:
		return "cue before"
	}
	return "back"
}

func silenceLabel(m *Model) string {
	if m.bell.Silent(m.real) {
		return "ring again"
	}
	return "silence"
}
