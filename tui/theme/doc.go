// Package theme holds how things look: a colour for each meaning, a symbol and
// a word for each state.
//
// Colour only repeats what symbol and word say: the screen can be read without
// colour (NO_COLOR), in sixteen colours and without Unicode. The palette is
// ours; it meets WCAG 2.2 level AA (contrast 4.5 to 1) on black and on white,
// also after a terminal of 256 colours has rounded it. A terminal of sixteen
// colours has a palette that nobody knows; there only bold and reverse are used.
//
// It knows no pane and nothing of a dinner but the classes of cues.
package theme
