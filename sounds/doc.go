// Package sounds makes the motifs by which a cook hears, with the back to the
// screen, how urgent something is and of what kind. It has one for each class of
// cue, written as a score and synthesised when the program starts; there are no
// recordings.
//
// # From a score to a sound
//
//	catalog.go   class → score, meaning, loudness     the only place to tune a motif
//	score.go     pulses (onset, pitch, length) and a timbre
//	synth.go     score → samples between -1 and 1
//	loudness.go  samples → LUFS, by ITU-R BS.1770
//	render.go    every motif at its loudness; volume and rise; 16-bit samples
//	wav.go       16-bit samples → a WAV file, for players that want one
//
// # How the motifs are told apart
//
// First by the number of pulses, which no two share, then by the rhythm, then by
// the contour, last by the pitch: whoever cannot tell a high tone from a low one,
// or hears half of it under a hood, can still count. Urgency follows the usage of
// alarm design: more pulses, faster, higher and louder mean more urgent. IEC
// 60601-1-8 (from memory) wants pulses of 150 to 1000 Hz with at least four
// harmonics between 300 and 4000 Hz within 15 dB of each other, so that a sound is
// placed by ear and not drowned by one noise. That is a guide here, no claim:
// this is a kitchen.
//
// When a cue rings is no business of this package: see sounds/ring. How a sound
// reaches a loudspeaker is not either: see sounds/speaker.
package sounds
