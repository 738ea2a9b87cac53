// Package speaker brings sounds to a loudspeaker, by whatever way the system has,
// and never lets anybody wait for it.
//
//	speaker.go    Speaker: one sound at a time, beside the screen; says once what is wrong
//	way.go        Way: one way to a loudspeaker
//	pulse.go      PulseAudio and PipeWire, by their common protocol; tagstruct.go its
//	              encoding, server.go where the server is
//	command.go    a player of the system: pw-play, paplay, aplay, afplay
//	winmm_windows.go   Windows' own
//	ways_*.go     which ways a system has, best first
//	bell.go       the terminal's bell
//
// # What may go wrong
//
// There is no device, no server, no player; the server hangs, or dies in the middle
// of a sound; the device is unplugged. Each way has a deadline for every answer it
// waits for, and writes nothing to the terminal. When one fails, the next is tried;
// when all fail, that is logged once, with why, and each further sound tries them
// all again: so sound comes back by itself, and that is logged too.
//
// The protocol is spoken here, without a library, and without a goroutine: a few
// messages over one connection for each sound, so that nothing is left over from a
// server that went away, and nothing it sends can end the program.
package speaker
