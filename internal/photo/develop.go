package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/webp"

	"potwright/internal/diagnostic"
)

// Bounds of what is taken and kept. Design choices: a phone's usual picture has 12 to 50
// megapixels and 2 to 12 MB.
const (
	// MostBytes is the most that one file may hold.
	MostBytes = 20 << 20
	// MostPixels is the most that one picture may have, before it is scaled.
	MostPixels = 50_000_000
	// mostOpened is the most memory for one picture while it is opened, bytes.
	mostOpened = 300_000_000
	// LargeSide and SmallSide are the longer side of what is kept, pixels: a page's
	// width on a fine screen, and that of a list.
	LargeSide = 1600
	SmallSide = 400

	largeQuality = 82
	smallQuality = 78
)

// Develop makes a picture of a file's bytes as they were sent. What keeps it from being
// taken is a diagnostic.Fault: what is wrong and what to send instead.
func Develop(content []byte) (Picture, error) {
	k, known := kindOf(content)
	if !known {
		return Picture{}, notAPicture(content)
	}
	if len(content) > MostBytes {
		return Picture{}, TooLong()
	}
	if err := checkSize(k, content); err != nil {
		return Picture{}, err
	}
	opened, err := decoderOf(k).whole(bytes.NewReader(content))
	if err != nil {
		return Picture{}, damaged(k, err)
	}
	if opened.Bounds().Empty() { // a GIF's picture may be smaller than the screen it tells of
		return Picture{}, damaged(k, errEmpty)
	}
	lies := orientationOf(k, content)
	large := lies.turned(fitted(opened, LargeSide))
	return encoded(large)
}

var errEmpty = errors.New("no pixel is in it")

// TooLong is the fault of a file of over MostBytes.
func TooLong() diagnostic.Fault {
	return diagnostic.Fault{Problem: "the file is too large", Expected: fmt.Sprintf("at most %d MB a picture: save it smaller and send that", MostBytes>>20)}
}

// damaged is the fault of a file that begins like a picture and is none.
func damaged(k kind, err error) diagnostic.Fault {
	return diagnostic.Fault{Problem: fmt.Sprintf("the picture can't be opened: it is damaged, cut off, or a sort of %s that is not read here (%v)", k, err),
		Expected: anyKind + " that opens elsewhere: take it or save it once more and send that"}
}

// decoder opens one form of picture.
type decoder struct {
	size  func(*bytes.Reader) (image.Config, error)
	whole func(*bytes.Reader) (image.Image, error)
}

// decoderOf gives the decoder of the kind that the first bytes told; a registry of them
// would guess anew.
func decoderOf(k kind) decoder {
	switch k {
	case jpegKind:
		return decoder{func(r *bytes.Reader) (image.Config, error) { return jpeg.DecodeConfig(r) },
			func(r *bytes.Reader) (image.Image, error) { return jpeg.Decode(r) }}
	case pngKind:
		return decoder{func(r *bytes.Reader) (image.Config, error) { return png.DecodeConfig(r) },
			func(r *bytes.Reader) (image.Image, error) { return png.Decode(r) }}
	case gifKind: // of several pictures the first
		return decoder{func(r *bytes.Reader) (image.Config, error) { return gif.DecodeConfig(r) },
			func(r *bytes.Reader) (image.Image, error) { return gif.Decode(r) }}
	default:
		return decoder{func(r *bytes.Reader) (image.Config, error) { return webp.DecodeConfig(r) },
			func(r *bytes.Reader) (image.Image, error) { return webp.Decode(r) }}
	}
}

// checkSize refuses a picture that would take too much memory, before it is opened: few
// bytes may stand for very many pixels.
func checkSize(k kind, content []byte) error {
	size, err := decoderOf(k).size(bytes.NewReader(content))
	if err != nil {
		return damaged(k, err)
	}
	if size.Width < 1 || size.Height < 1 {
		return damaged(k, fmt.Errorf("it is %d by %d pixels", size.Width, size.Height))
	}
	pixels := int64(size.Width) * int64(size.Height)
	most := min(MostPixels, mostOpened/bytesOpened(k, content, size.ColorModel))
	if pixels <= most {
		return nil
	}
	return diagnostic.Fault{Problem: fmt.Sprintf("the picture is %d by %d pixels, %d megapixels", size.Width, size.Height, (pixels+500_000)/1_000_000),
		Expected: fmt.Sprintf("at most %d megapixels for a picture of its sort: save it smaller and send that", most/1_000_000)}
}

// bytesOpened is the memory that opening takes for each pixel, at most.
func bytesOpened(k kind, content []byte, m color.Model) int64 {
	switch {
	case k == jpegKind && isProgressive(content):
		return 12 // all coefficients of three components are kept until the last scan
	case m == color.NRGBA64Model || m == color.RGBA64Model || m == color.Gray16Model:
		return 8
	}
	return 4
}

// encoded writes both sizes.
func encoded(large *image.RGBA) (Picture, error) {
	var p Picture
	var err error
	if p.Large, err = written(large, largeQuality); err != nil {
		return p, err
	}
	p.Small, err = written(fitted(large, SmallSide), smallQuality)
	return p, err
}

func written(in *image.RGBA, quality int) (Image, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, in, &jpeg.Options{Quality: quality}); err != nil {
		return Image{}, fmt.Errorf("write picture: %w", err)
	}
	return Image{b.Bytes(), in.Rect.Dx(), in.Rect.Dy()}, nil
}
