package photo

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
)

// The pictures of these tests are made here, and their files from the standards' bytes.

var (
	red   = color.RGBA{200, 20, 20, 255}
	green = color.RGBA{20, 160, 20, 255}
	blue  = color.RGBA{20, 20, 200, 255}
	pale  = color.RGBA{240, 230, 210, 255}
)

func plain(w, h int, c color.Color) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(m, m.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return m
}

// quarters is a picture of four colours: top left, top right, bottom left, bottom right.
func quarters(w, h int, colours [4]color.RGBA) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i, c := range colours {
		at := image.Pt(i%2*w/2, i/2*h/2)
		draw.Draw(m, image.Rect(0, 0, w/2, h/2).Add(at), image.NewUniform(c), image.Point{}, draw.Src)
	}
	return m
}

func asJPEG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 95}))
	return b.Bytes()
}

func asPNG(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, m))
	return b.Bytes()
}

// asGIF is an animated GIF of the pictures.
func asGIF(t testing.TB, ms ...image.Image) []byte {
	t.Helper()
	var all gif.GIF
	for _, m := range ms {
		p := image.NewPaletted(m.Bounds(), color.Palette{red, green, blue, pale})
		draw.Draw(p, p.Rect, m, m.Bounds().Min, draw.Src)
		all.Image, all.Delay = append(all.Image, p), append(all.Delay, 10)
	}
	var b bytes.Buffer
	require.NoError(t, gif.EncodeAll(&b, &all))
	return b.Bytes()
}

// webpChunks is a WebP file of chunks (RFC 9649, 2.3 and 2.4).
func webpChunks(chunks ...[]byte) []byte {
	body := []byte("WEBP")
	for _, c := range chunks {
		body = append(body, c...)
	}
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

func webpPart(name string, content []byte) []byte {
	out := append(binary.LittleEndian.AppendUint32([]byte(name), uint32(len(content))), content...)
	if len(content)%2 == 1 {
		out = append(out, 0)
	}
	return out
}

// plainVP8L is a lossless picture of one colour (RFC 9649, 3.4 to 3.7.2.1.1): five codes
// of one symbol each, which take no bits for a pixel.
func plainVP8L(w, h int, c color.RGBA) []byte {
	var bits, n uint64
	out := []byte{0x2f}
	put := func(value uint64, count uint64) {
		bits |= value << n
		for n += count; n >= 8; n -= 8 {
			out = append(out, byte(bits))
			bits >>= 8
		}
	}
	put(uint64(w-1), 14)
	put(uint64(h-1), 14)
	put(0, 1+3)   // no alpha, version 0
	put(0, 1+1+1) // no transform, no colour cache, one group of codes
	for _, symbol := range []uint8{c.G, c.R, c.B, 255} {
		put(1, 1) // a simple code
		put(0, 1) // of one symbol
		put(1, 1) // of eight bits
		put(uint64(symbol), 8)
	}
	put(1, 1)
	put(0, 1+1+1) // distances: one symbol of one bit, 0
	put(0, 7)     // to the end of the byte
	return webpPart("VP8L", out)
}

// plainVP8X is the head of a file of further chunks (RFC 9649, 2.7.1): it tells that
// there is EXIF.
func plainVP8X(w, h int) []byte {
	content := []byte{1 << 3, 0, 0, 0}
	for _, side := range []int{w - 1, h - 1} {
		content = append(content, byte(side), byte(side>>8), byte(side>>16))
	}
	return webpPart("VP8X", content)
}

// exifOf is a TIFF structure with an orientation (TIFF 6.0, section 2; EXIF 2.3, 4.6.4):
// a directory of two entries, the other one being the model of the camera.
func exifOf(order binary.AppendByteOrder, orientation uint16) []byte {
	mark := map[binary.AppendByteOrder]string{binary.LittleEndian: "II", binary.BigEndian: "MM"}[order]
	b := order.AppendUint16([]byte(mark), 42)
	b = order.AppendUint32(b, 8) // where the directory begins
	b = order.AppendUint16(b, 2) // its entries
	entry := func(tag, kind uint16, count uint32) {
		b = order.AppendUint32(order.AppendUint16(order.AppendUint16(b, tag), kind), count)
	}
	const short, ascii = 3, 2
	entry(0x0110, ascii, uint32(len(cameraName)))
	b = order.AppendUint32(b, 8+2+2*12+4)
	entry(0x0112, short, 1)
	b = order.AppendUint16(order.AppendUint16(b, orientation), 0)
	b = order.AppendUint32(b, 0) // no further directory
	return append(b, cameraName...)
}

const cameraName = "Ana's camera, 59.3293 N 18.0686 E"

// withSegment puts a segment after a JPEG's first marker (ITU-T T.81, B.1.1.4).
func withSegment(file []byte, marker byte, payload []byte) []byte {
	head := binary.BigEndian.AppendUint16([]byte{0xff, 0xd8, 0xff, marker}, uint16(len(payload)+2))
	return append(append(head, payload...), file[2:]...)
}

// withExif is a JPEG that says how it lies (EXIF 2.3, 4.7.2).
func withExif(file, exif []byte) []byte {
	return withSegment(file, 0xe1, append([]byte("Exif\x00\x00"), exif...))
}

// withChunk puts a chunk before a PNG's pixels (PNG, third edition, 5.3).
func withChunk(file []byte, name string, content []byte) []byte {
	const head = 8 + 25 // signature and IHDR
	body := append([]byte(name), content...)
	c := append(binary.BigEndian.AppendUint32(nil, uint32(len(content))), body...)
	c = binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(body))
	return append(append(bytes.Clone(file[:head]), c...), file[head:]...)
}

// pngHead is a PNG that ends after its size (PNG, third edition, 11.2.1).
func pngHead(w, h uint32, depth, colour byte) []byte {
	content := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	body := append([]byte("IHDR"), append(content, depth, colour, 0, 0, 0)...)
	out := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	return binary.BigEndian.AppendUint32(append(out, body...), crc32.ChecksumIEEE(body))
}

// jpegHead is a JPEG that ends after its size (ITU-T T.81, B.2.2), with stray bytes that
// readers pass over.
func jpegHead(w, h uint16, marker byte) []byte {
	out := []byte{0xff, 0xd8, 0xff, 0xfe, 0, 4, 'h', 'i', 0xff, marker, 0, 17, 8}
	out = binary.BigEndian.AppendUint16(binary.BigEndian.AppendUint16(out, h), w)
	return append(out, 3, 1, 0x22, 0, 2, 0x11, 0, 3, 0x11, 0, 0xff, 0xda, 0, 12)
}

func opened(t testing.TB, one Image) image.Image {
	t.Helper()
	m, err := jpeg.Decode(bytes.NewReader(one.JPEG))
	require.NoError(t, err)
	require.Equal(t, image.Pt(one.Width, one.Height), m.Bounds().Size())
	return m
}
