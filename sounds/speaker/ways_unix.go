//go:build unix && !darwin

package speaker

// Ways returns the ways to a loudspeaker that this system may have, best first.
func Ways() []Way {
	return []Way{
		Pulse{},
		Command{Program: "pw-play"},
		Command{Program: "paplay"},
		Command{Program: "aplay", Args: []string{"-q"}},
	}
}
