// Package soundtest hears: it finds onsets and pitches in samples, clicks, and makes
// noise, for tests of what was rendered and of what came out of a sound server. It
// shares nothing with the code that makes the sounds but the catalog's pitches: a
// listener knows the sounds by then, and not which one comes.
package soundtest
