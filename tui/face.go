package tui

import (
	"strings"
	"unicode"
)

// glyphs are the signs of the big face, five dots high, as wide as they need.
var glyphs = map[rune][5]string{
	'A': {".##.", "#..#", "####", "#..#", "#..#"}, 'B': {"###.", "#..#", "###.", "#..#", "###."},
	'C': {".###", "#...", "#...", "#...", ".###"}, 'D': {"###.", "#..#", "#..#", "#..#", "###."},
	'E': {"####", "#...", "###.", "#...", "####"}, 'F': {"####", "#...", "###.", "#...", "#..."},
	'G': {".###", "#...", "#.##", "#..#", ".###"}, 'H': {"#..#", "#..#", "####", "#..#", "#..#"},
	'I': {"###", ".#.", ".#.", ".#.", "###"}, 'J': {"..##", "...#", "...#", "#..#", ".##."},
	'K': {"#..#", "#.#.", "##..", "#.#.", "#..#"}, 'L': {"#...", "#...", "#...", "#...", "####"},
	'M': {"#...#", "##.##", "#.#.#", "#...#", "#...#"}, 'N': {"#...#", "##..#", "#.#.#", "#..##", "#...#"},
	'O': {".##.", "#..#", "#..#", "#..#", ".##."}, 'P': {"###.", "#..#", "###.", "#...", "#..."},
	'Q': {".##.", "#..#", "#..#", "#.##", ".###"}, 'R': {"###.", "#..#", "###.", "#.#.", "#..#"},
	'S': {".###", "#...", ".##.", "...#", "###."}, 'T': {"#####", "..#..", "..#..", "..#..", "..#.."},
	'U': {"#..#", "#..#", "#..#", "#..#", ".##."}, 'V': {"#...#", "#...#", ".#.#.", ".#.#.", "..#.."},
	'W': {"#...#", "#...#", "#.#.#", "##.##", "#...#"}, 'X': {"#...#", ".#.#.", "..#..", ".#.#.", "#...#"},
	'Y': {"#...#", ".#.#.", "..#..", "..#..", "..#.."}, 'Z': {"####", "..#.", ".#..", "#...", "####"},
	'0': {".##.", "#..#", "#..#", "#..#", ".##."}, '1': {".#.", "##.", ".#.", ".#.", "###"},
	'2': {"###.", "...#", ".##.", "#...", "####"}, '3': {"###.", "...#", ".##.", "...#", "###."},
	'4': {"#..#", "#..#", "####", "...#", "...#"}, '5': {"####", "#...", "###.", "...#", "###."},
	'6': {".##.", "#...", "###.", "#..#", ".##."}, '7': {"####", "...#", "..#.", ".#..", ".#.."},
	'8': {".##.", "#..#", ".##.", "#..#", ".##."}, '9': {".##.", "#..#", ".###", "...#", ".##."},
	' ': {"..", "..", "..", "..", ".."}, '-': {"...", "...", "###", "...", "..."}, '.': {".", ".", ".", ".", "#"},
	',': {".", ".", ".", "#", "#"}, ':': {".", "#", ".", "#", "."}, '\'': {"#", "#", ".", ".", "."},
	'&': {".#..", "#.#.", ".#..", "#.##", ".###"}, '+': {"...", ".#.", "###", ".#.", "..."},
	'/': {"..#", "..#", ".#.", "#..", "#.."}, '!': {"#", "#", "#", ".", "#"}, '?': {"##.", "..#", ".#.", "...", ".#."},
	'(': {".#", "#.", "#.", "#.", ".#"}, ')': {"#.", ".#", ".#", ".#", "#."}, '"': {"#.#", "#.#", "...", "...", "..."},
	'°': {"##", "##", "..", "..", ".."}, '%': {"#..#", "..#.", ".#..", "#..#", "...."},
}

// numerals are the digits of a countdown, three columns by five rows of which the
// inner ones stretch: so they can be of any size.
var numerals = map[rune][5]string{
	'0': {"###", "#.#", "#.#", "#.#", "###"}, '1': {"..#", "..#", "..#", "..#", "..#"}, '2': {"###", "..#", "###", "#..", "###"},
	'3': {"###", "..#", "###", "..#", "###"}, '4': {"#.#", "#.#", "###", "..#", "..#"}, '5': {"###", "#..", "###", "..#", "###"},
	'6': {"###", "#..", "###", "#.#", "###"}, '7': {"###", "..#", "..#", "..#", "..#"}, '8': {"###", "#.#", "###", "#.#", "###"},
	'9': {"###", "#.#", "###", "..#", "###"}, ':': {".", "#", ".", "#", "."}, 'h': {"#..", "#..", "###", "#.#", "#.#"},
	'd': {"..#", "..#", "###", "#.#", "###"},
}

// dots is a picture of dots. With Unicode two of them, one above the other, share
// a cell, and so they are about square.
type dots struct {
	w, h int
	on   []bool
}

func newDots(w, h int) *dots { return &dots{w, h, make([]bool, w*h)} }

func (d *dots) fill(x, y, w, h int) {
	for j := max(0, y); j < min(d.h, y+h); j++ {
		for i := max(0, x); i < min(d.w, x+w); i++ {
			d.on[j*d.w+i] = true
		}
	}
}

// lines turns the picture into lines of text, each w cells wide.
func (d *dots) lines(ascii bool) []string {
	at := func(x, y int) bool { return y < d.h && d.on[y*d.w+x] }
	var out []string
	var b strings.Builder
	for y := 0; y < d.h; {
		b.Reset()
		for x := range d.w {
			switch up, down := at(x, y), !ascii && at(x, y+1); {
			case ascii && up:
				b.WriteByte('#')
			case up && down:
				b.WriteString("█")
			case up:
				b.WriteString("▀")
			case down:
				b.WriteString("▄")
			default:
				b.WriteByte(' ')
			}
		}
		out = append(out, b.String())
		if y++; !ascii {
			y++
		}
	}
	return out
}

// faceWidth is how wide a text is in the big face, in dots; ok tells whether the
// face has all its signs.
func faceWidth(s string) (w int, ok bool) {
	for _, r := range s {
		g, known := glyphs[r]
		if !known {
			return 0, false
		}
		w += len(g[0]) + 1
	}
	return max(0, w-1), true
}

// inFace draws a text in the big face, each dot scale cells wide.
func inFace(s string, scale int, ascii bool) []string {
	w, _ := faceWidth(s)
	d := newDots(w*scale, 5*scale)
	x := 0
	for _, r := range s {
		g := glyphs[r]
		for row, bits := range g {
			for col, bit := range bits {
				if bit == '#' {
					d.fill(x+col*scale, row*scale, scale, scale)
				}
			}
		}
		x += (len(g[0]) + 1) * scale
	}
	return d.lines(ascii)
}

// faceRows is how many lines a text takes in the big face.
func faceRows(scale int, ascii bool) int {
	if ascii {
		return 5 * scale
	}
	return (5*scale + 1) / 2
}

// faced breaks a name into at most n lines of the big face, w cells wide; nil
// where the face lacks a sign of it. Words that do not fit are left out, from the
// end. whole tells whether all of it is there.
func faced(name string, scale, w, n int) (lines []string, whole bool) {
	words := strings.Fields(strings.Map(unicode.ToUpper, spell(strings.ReplaceAll(name, "°", "\x01"))))
	for _, word := range words {
		word = strings.ReplaceAll(word, "\x01", "°")
		if _, ok := faceWidth(word); !ok {
			return nil, false
		}
		line := word
		if len(lines) > 0 {
			line = lines[len(lines)-1] + " " + word
		}
		switch wide, _ := faceWidth(line); {
		case len(lines) > 0 && wide*scale <= w:
			lines[len(lines)-1] = line
			continue
		case len(lines) == n:
			return lines, false
		}
		if wide, _ := faceWidth(word); wide*scale > w {
			return lines, false
		}
		lines = append(lines, word)
	}
	return lines, true
}

// countSizes is how wide a digit h dots high is, its stroke, and the gap between two.
func countSizes(h int, ascii bool) (wide, stroke, gap int) {
	wide = max(3, h*5/8)
	stroke = max(1, h/6)
	if ascii {
		wide, stroke = max(4, h), max(1, h/4)
	}
	return wide, stroke, stroke
}

// count draws the digits of a countdown ("4:12", "1h05") as many lines high.
func count(s string, rows int, ascii bool) []string {
	h := rows
	if !ascii {
		h = 2 * rows
	}
	wide, stroke, gap := countSizes(h, ascii)
	d := newDots(countWidth(s, rows, ascii), h)
	tall := max(1, h/6) // of the horizontal strokes
	if ascii {
		tall = max(1, h/7)
	}
	upper := (h - 3*tall) / 2
	heights := [5]int{tall, upper, tall, h - 3*tall - upper, tall}
	x := 0
	for _, r := range s {
		g := numerals[r]
		widths := []int{stroke, max(1, wide-2*stroke), stroke}
		if len(g[0]) == 1 {
			widths = widths[:1]
		}
		y := 0
		for row, bits := range g {
			cx := x
			for col, bit := range bits {
				if bit == '#' && r == ':' { // a dot, not a stroke
					side := min(tall, heights[row])
					d.fill(cx, y+(heights[row]-side)/2, stroke, side)
				} else if bit == '#' {
					d.fill(cx, y, widths[col], heights[row])
				}
				cx += widths[col]
			}
			y += heights[row]
		}
		for _, w := range widths {
			x += w
		}
		x += gap
	}
	return d.lines(ascii)
}

// countWidth is how many cells wide the digits of a countdown are.
func countWidth(s string, rows int, ascii bool) int {
	h := rows
	if !ascii {
		h = 2 * rows
	}
	wide, stroke, gap := countSizes(h, ascii)
	w := -gap
	for _, r := range s {
		if w += gap + stroke; len(numerals[r][0]) > 1 {
			w += stroke + max(1, wide-2*stroke)
		}
	}
	return max(0, w)
}
