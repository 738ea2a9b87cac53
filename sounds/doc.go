// Package sounds makes cues audible: a cook who stands with the back to the
// screen hears that something is due. For now every cue that rings is the
// terminal's bell.
//
// The catalog says which classes of cue ring and how often one is repeated
// until it is answered. A Player rings; it knows nothing of cues that are open
// or answered and keeps no time.
package sounds
