// Package ring says when to ring, and how insistently: a pure function of which
// cues are open and what time it is. It reads no clock and plays nothing.
//
// # The rule
//
//  1. A cue rings when it comes up, and again when it becomes more urgent.
//  2. Until it is answered it rings again after intervals that grow, each time a
//     little louder, up to a ceiling. A cue that only stands by (soon) and one that
//     only tells (note) ring once.
//  3. What is due to ring at one moment rings once, as the most urgent of it. So
//     a laptop that slept rings once for all that came up meanwhile. A ring counts
//     for everything open that is no more urgent: its next one is an interval away.
//     So ten things that nobody answered ring no more often than the last of them.
//  4. There is one ring in ten seconds at most. What comes up sooner waits for its
//     ring, and is not lost. Danger waits for nothing.
//  5. After the key for silence nothing rings for five minutes. What came up in
//     them then rings once.
//
// Time here is that of the ear: in a rehearsal, too, it is the real clock.
package ring
