package rehearse

import (
	"example.org/kettledrum/plan/clock"
	"example.org/kettledrum/plan/run"
	"example.org/kettledrum/plan/session"
)

// Conductor is a session on whose ticks a player plays what is due: for a screen,
// on which the cook answers.
type Conductor struct {
	*session.Session
	Player *Player
	Clock  clock.Clock
}

// Tick plays what is due, then ticks the session.
func (c *Conductor) Tick() (*run.State, error) {
	if err := c.Player.Play(c.Clock.Now()); err != nil {
		return c.State(), err
	}
	return c.Session.Tick()
}
