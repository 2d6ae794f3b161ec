package photo

import (
	"image"
	"image/draw"

	scaling "golang.org/x/image/draw"
)

// fitted is a picture of no more than most pixels along its longer side, opaque: what
// was clear is white. A smaller one stays as large as it is.
func fitted(in image.Image, most int) *image.RGBA {
	w, h := in.Bounds().Dx(), in.Bounds().Dy()
	longest := max(w, h)
	near := averaged(in, max(1, longest/most))
	if longest <= most {
		return near
	}
	out := image.NewRGBA(image.Rect(0, 0, max(1, (w*most+longest/2)/longest), max(1, (h*most+longest/2)/longest)))
	scaling.CatmullRom.Scale(out, out.Rect, near, near.Rect, draw.Src, nil)
	return out
}

// averaged is the picture at a whole fraction of its size, each pixel the mean of a
// square of n by n. The good scaler keeps 32 bytes for each pixel of its first pass,
// which for a large picture is more than the picture: so it gets one of less than twice
// the size that is wanted.
func averaged(in image.Image, n int) *image.RGBA {
	b := in.Bounds()
	w, h := (b.Dx()+n-1)/n, (b.Dy()+n-1)/n
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	// One row of squares at a time: the whole picture would take another 4 bytes a pixel.
	strip := image.NewRGBA(image.Rect(0, 0, b.Dx(), n))
	for y := range h {
		draw.Draw(strip, strip.Rect, image.White, image.Point{}, draw.Src)
		rows := min(n, b.Dy()-y*n)
		draw.Draw(strip, image.Rect(0, 0, b.Dx(), rows), in, image.Pt(b.Min.X, b.Min.Y+y*n), draw.Over)
		for x := range w {
			mean(out.Pix[out.PixOffset(x, y):][:4], strip, image.Rect(x*n, 0, min((x+1)*n, b.Dx()), rows))
		}
	}
	return out
}

// mean puts the mean colour of a part of a strip into a pixel.
func mean(pixel []byte, strip *image.RGBA, of image.Rectangle) {
	var sum [4]int
	for y := of.Min.Y; y < of.Max.Y; y++ {
		row := strip.Pix[strip.PixOffset(of.Min.X, y) : strip.PixOffset(of.Max.X-1, y)+4]
		for i := 0; i < len(row); i += 4 {
			for c := range sum {
				sum[c] += int(row[i+c])
			}
		}
	}
	count := of.Dx() * of.Dy()
	for c := range sum {
		pixel[c] = byte((sum[c] + count/2) / count)
	}
}
