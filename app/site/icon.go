package site

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
)

// The icon is a measuring cup, filled to the first of its four marks, in ink on
// paper. It is drawn once, as shapes in a square of 100, and comes out as SVG
// and as PNG.
type shape struct {
	fill   color.RGBA
	points [][2]float64
}

// The page's colours in the light, as web/css/05-tokens.css has them, and its
// paper in the dark. A test holds them to it.
var (
	paper     = color.RGBA{0xf8, 0xfa, 0xf9, 0xff}
	ink       = color.RGBA{0x15, 0x20, 0x1f, 0xff}
	accent    = color.RGBA{0x0b, 0x5a, 0x63, 0xff}
	darkPaper = color.RGBA{0x13, 0x1a, 0x1a, 0xff}
)

// inCSS is a colour as CSS has it.
func inCSS(c color.RGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// drawing returns the icon's shapes, the lowest first. With full, paper fills
// the whole square, as icons that get masked need; else the corners are round.
func drawing(full bool) []shape {
	ground := roundedBox(2, 2, 98, 98, 18)
	if full {
		ground = roundedBox(0, 0, 100, 100, 0)
	}
	shapes := []shape{
		{paper, ground},
		// handle: a ring of ink, half hidden by the cup
		{ink, roundedBox(60, 34, 85, 66, 13)},
		{paper, roundedBox(66, 40, 79, 60, 7)},
		// cup, a little narrower at the foot, with a lip
		{ink, [][2]float64{{20, 22}, {70, 22}, {65, 79}, {25, 79}}},
		{ink, [][2]float64{{14, 20}, {72, 20}, {72, 26}, {19, 26}}},
		{paper, [][2]float64{{25.4, 26}, {64.6, 26}, {60.4, 74}, {29.6, 74}}},
		// what is in it, up to a quarter
		{accent, [][2]float64{{28.6, 62}, {61.4, 62}, {60.4, 74}, {29.6, 74}}},
	}
	for _, mark := range []float64{38, 50, 62} {
		shapes = append(shapes, shape{ink, [][2]float64{{47, mark - 1.5}, {64, mark - 1.5}, {64, mark + 1.5}, {47, mark + 1.5}}})
	}
	return shapes
}

// roundedBox is a box with corners of radius r, as a polygon.
func roundedBox(x0, y0, x1, y1, r float64) [][2]float64 {
	if r == 0 {
		return [][2]float64{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
	}
	var p [][2]float64
	for i, c := range [][2]float64{{x1 - r, y0 + r}, {x1 - r, y1 - r}, {x0 + r, y1 - r}, {x0 + r, y0 + r}} {
		for step := range 9 {
			turn := math.Pi / 2 * (float64(i) - 1 + float64(step)/8)
			p = append(p, [2]float64{c[0] + r*math.Cos(turn), c[1] + r*math.Sin(turn)})
		}
	}
	return p
}

func svgIcon() []byte {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">`)
	for _, s := range drawing(false) {
		fmt.Fprintf(&b, `<path fill="%s" d="M`, inCSS(s.fill))
		for i, p := range s.points {
			if i > 0 {
				b.WriteByte(' ')
			}
			fmt.Fprintf(&b, "%.4g,%.4g", p[0], p[1])
		}
		b.WriteString(`z"/>`)
	}
	b.WriteString("</svg>\n")
	return []byte(b.String())
}

// pngIcon draws the icon size pixels wide, each pixel from 4 by 4 samples.
func pngIcon(size int, full bool) ([]byte, error) {
	const fine = 4
	img := image.NewNRGBA(image.Rect(0, 0, size, size))
	shapes := drawing(full)
	for y := range size {
		for x := range size {
			var r, g, b, n int
			for i := range fine * fine {
				px := (float64(x) + (float64(i%fine)+.5)/fine) * 100 / float64(size)
				py := (float64(y) + (float64(i/fine)+.5)/fine) * 100 / float64(size)
				if c, ok := at(shapes, px, py); ok {
					r, g, b, n = r+int(c.R), g+int(c.G), b+int(c.B), n+1
				}
			}
			if n > 0 {
				img.SetNRGBA(x, y, color.NRGBA{uint8(r / n), uint8(g / n), uint8(b / n), uint8(n * 255 / (fine * fine))})
			}
		}
	}
	var buf bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestCompression}
	err := encoder.Encode(&buf, img)
	return buf.Bytes(), err
}

// at is the colour of the topmost shape at a point.
func at(shapes []shape, x, y float64) (color.RGBA, bool) {
	for i := len(shapes) - 1; i >= 0; i-- {
		inside, p := false, shapes[i].points
		for j := range p {
			a, b := p[j], p[(j+1)%len(p)]
			if (a[1] > y) != (b[1] > y) && x < a[0]+(b[0]-a[0])*(y-a[1])/(b[1]-a[1]) {
				inside = !inside
			}
		}
		if inside {
			return shapes[i].fill, true
		}
	}
	return color.RGBA{}, false
}

func (b *build) icons() error {
	b.add(&file{name: "icon.svg", data: svgIcon(), first: true, offline: true})
	for _, icon := range []struct {
		name string
		size int
		full bool
	}{
		// Only an installation asks for these; a first visit does not.
		{"icon-192.png", 192, false},
		{"icon-512.png", 512, false},
		{"icon-mask.png", 512, true},
	} {
		data, err := pngIcon(icon.size, icon.full)
		if err != nil {
			return err
		}
		b.add(&file{name: icon.name, data: data})
	}
	return nil
}
