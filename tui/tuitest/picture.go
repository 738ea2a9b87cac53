package tuitest

import (
	"fmt"
	"html"
	"image/color"
	"io"
	"strings"

	uv "github.com/charmbracelet/ultraviolet"
	"github.com/charmbracelet/x/vt"
)

// Cells of a picture, in pixels.
const (
	cellW, cellH, fontSize, margin = 9, 20, 15, 14
)

// Ground is what a terminal has by itself: its ground, and the text on it.
type Ground struct{ ground, text string }

// The two grounds that people have.
var (
	Dark  = Ground{"#14171a", "#dfe3e6"}
	Light = Ground{"#ffffff", "#1a1d20"}
)

// SVG writes a picture of what a terminal on this ground shows: colours, bold, faint
// and reverse as the cells have them.
func SVG(out io.Writer, e *vt.Emulator, on Ground) error {
	ground, text := on.ground, on.text
	pw, ph := e.Width()*cellW+2*margin, e.Height()*cellH+2*margin
	_, err := fmt.Fprintf(out, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" font-family="DejaVu Sans Mono, monospace" font-size="%d">
<rect width="100%%" height="100%%" rx="8" fill="%s"/>
`, pw, ph, fontSize, ground)
	for y := range e.Height() {
		for x := 0; x < e.Width(); x++ {
			c := e.CellAt(x, y)
			if c == nil {
				continue
			}
			fg, bg := hexOf(c.Style.Fg, text), hexOf(c.Style.Bg, "")
			if c.Style.Attrs&uv.AttrReverse != 0 {
				fg, bg = hexOf(c.Style.Bg, ground), hexOf(c.Style.Fg, text)
			}
			px, py, n := margin+x*cellW, margin+y*cellH, max(1, c.Width)
			if bg != "" && err == nil {
				_, err = fmt.Fprintf(out, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s" shape-rendering="crispEdges"/>`+"\n", px, py, n*cellW, cellH, bg)
			}
			if x0, y0, w, h, ok := block(c.Content); ok && err == nil {
				_, err = fmt.Fprintf(out, `<rect x="%g" y="%g" width="%g" height="%g" fill="%s" shape-rendering="crispEdges"/>`+"\n",
					float64(px)+x0*cellW, float64(py)+y0*cellH, w*cellW, h*cellH, fg)
				continue
			}
			if c.Content != "" && c.Content != " " && err == nil {
				more := ""
				if c.Style.Attrs&uv.AttrBold != 0 {
					more += ` font-weight="bold"`
				}
				if c.Style.Attrs&uv.AttrFaint != 0 {
					more += ` opacity="0.6"`
				}
				_, err = fmt.Fprintf(out, `<text x="%d" y="%d" fill="%s"%s>%s</text>`+"\n", px, py+fontSize, fg, more, html.EscapeString(c.Content))
			}
		}
	}
	if err == nil {
		_, err = io.WriteString(out, "</svg>\n")
	}
	return err
}

// block is the part of a cell that a block element fills, in shares of the cell:
// terminals draw these from edge to edge, which a font does not.
func block(content string) (x, y, w, h float64, ok bool) {
	r := []rune(content)
	if len(r) != 1 {
		return 0, 0, 0, 0, false
	}
	switch c := r[0]; {
	case c == '▀':
		return 0, 0, 1, 0.5, true
	case c >= '▁' && c <= '█':
		h = float64(c-'▁'+1) / 8
		return 0, 1 - h, 1, h, true
	}
	return 0, 0, 0, 0, false
}

// hexOf writes a colour for SVG, or the other where there is none.
func hexOf(c color.Color, none string) string {
	if c == nil {
		return none
	}
	r, g, b, _ := c.RGBA()
	return fmt.Sprintf("#%02x%02x%02x", r>>8, g>>8, b>>8)
}

// Picture writes a picture of a frame.
func Picture(w io.Writer, frame string, width, height int, on Ground) error {
	e := vt.NewEmulator(width, height)
	if _, err := io.WriteString(e, crlf(frame)); err != nil {
		return err
	}
	return SVG(w, e, on)
}

// crlf gives lines the ends that a terminal in raw mode wants.
func crlf(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") }
