package photo

import (
	"image"
)

// turned is a picture set upright: each orientation is a mirror image, and then a turn
// in which rows become columns.
func (o orientation) turned(in *image.RGBA) *image.RGBA {
	if o == upright {
		return in
	}
	w, h := in.Rect.Dx(), in.Rect.Dy()
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	if o.lies() {
		out = image.NewRGBA(image.Rect(0, 0, h, w))
	}
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			fromX, fromY := o.from(x, y, w, h)
			copy(out.Pix[out.PixOffset(x, y):][:4], in.Pix[in.PixOffset(fromX, fromY):][:4])
		}
	}
	return out
}

// lies reports whether the picture's rows are columns of what was seen.
func (o orientation) lies() bool { return o >= 5 }

// from is the stored column and row, of w columns and h rows, that the upright pixel
// x, y is at. What the "0th row" and "0th column" show, by EXIF 2.3, 4.6.4 A.
func (o orientation) from(x, y, w, h int) (column, row int) {
	switch o {
	case 2: // top, right
		return w - 1 - x, y
	case 3: // bottom, right
		return w - 1 - x, h - 1 - y
	case 4: // bottom, left
		return x, h - 1 - y
	case 5: // left, top
		return y, x
	case 6: // right, top
		return y, h - 1 - x
	case 7: // right, bottom
		return w - 1 - y, h - 1 - x
	case 8: // left, bottom
		return w - 1 - y, x
	}
	return x, y
}
