package speaker

// Ways returns the ways to a loudspeaker that this system may have, best first.
func Ways() []Way { return []Way{WinMM{}} }
