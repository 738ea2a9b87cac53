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

// SVG writes a picture of what a terminal shows, light text on a dark ground:
// colours, bold, faint and reverse as the cells have them.
func SVG(w io.Writer, e *vt.Emulator) error {
	const ground, text = "#14171a", "#dfe3e6"
	pw, ph := e.Width()*cellW+2*margin, e.Height()*cellH+2*margin
	_, err := fmt.Fprintf(w, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" font-family="DejaVu Sans Mono, monospace" font-size="%d">
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
				_, err = fmt.Fprintf(w, `<rect x="%d" y="%d" width="%d" height="%d" fill="%s" shape-rendering="crispEdges"/>`+"\n", px, py, n*cellW, cellH, bg)
			}
			if c.Content != "" && c.Content != " " && err == nil {
				more := ""
				if c.Style.Attrs&uv.AttrBold != 0 {
					more += ` font-weight="bold"`
				}
				if c.Style.Attrs&uv.AttrFaint != 0 {
					more += ` opacity="0.6"`
				}
				_, err = fmt.Fprintf(w, `<text x="%d" y="%d" fill="%s"%s>%s</text>`+"\n", px, py+fontSize, fg, more, html.EscapeString(c.Content))
			}
		}
	}
	if err == nil {
		_, err = io.WriteString(w, "</svg>\n")
	}
	return err
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
func Picture(w io.Writer, frame string, width, height int) error {
	e := vt.NewEmulator(width, height)
	if _, err := io.WriteString(e, crlf(frame)); err != nil {
		return err
	}
	return SVG(w, e)
}

// crlf gives lines the ends that a terminal in raw mode wants.
func crlf(s string) string { return strings.ReplaceAll(s, "\n", "\r\n") }
