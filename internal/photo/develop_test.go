package photo

import (
	"bytes"
	"context"
	"encoding/binary"
	"image"
	"image/color"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"potwright/internal/diagnostic"
)

// nearTo holds a colour against another within what JPEG changes of a plain area.
func nearTo(t testing.TB, want, got color.Color, about string) {
	t.Helper()
	const little = 8 << 8
	r, g, b, _ := want.RGBA()
	r2, g2, b2, _ := got.RGBA()
	for i, pair := range [][2]uint32{{r, r2}, {g, g2}, {b, b2}} {
		assert.InDelta(t, pair[0], pair[1], little, "%s: %v, expected %v (part %d)", about, got, want, i)
	}
}

func TestEachFormIsTakenAsWhatItsBytesSay(t *testing.T) {
	clear := image.NewNRGBA(image.Rect(0, 0, 30, 20))
	for name, c := range map[string]struct {
		file []byte
		want color.Color
	}{
		"JPEG":                          {asJPEG(t, plain(30, 20, red)), red},
		"PNG":                           {asPNG(t, plain(30, 20, green)), green},
		"PNG, what is clear is white":   {asPNG(t, clear), color.White},
		"GIF, the first of two":         {asGIF(t, plain(30, 20, blue), plain(30, 20, red)), blue},
		"WebP without loss":             {webpChunks(plainVP8L(30, 20, red)), red},
		"WebP with more than a picture": {webpChunks(plainVP8X(30, 20), plainVP8L(30, 20, green), webpPart("EXIF", exifOf(binary.LittleEndian, 1))), green},
	} {
		t.Run(name, func(t *testing.T) {
			p, err := Develop(c.file)
			require.NoError(t, err)
			for _, one := range []Image{p.Large, p.Small} {
				m := opened(t, one)
				assert.Equal(t, image.Pt(30, 20), m.Bounds().Size(), "a small picture stays as large as it is")
				nearTo(t, c.want, m.At(15, 10), name)
			}
		})
	}
}

// What the first row and the first column of the stored picture show, by EXIF 2.3,
// 4.6.4 A, tag 0112.
var sides = []struct{ row, column string }{
	{"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"},
	{"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"},
}

// corner is the place in quarters of where two sides meet.
func corner(a, b string) int {
	both, at := a+" "+b, 0
	if strings.Contains(both, "right") {
		at++
	}
	if strings.Contains(both, "bottom") {
		at += 2
	}
	return at
}

func TestOrientationIsAppliedAndGone(t *testing.T) {
	seen := [4]color.RGBA{red, green, blue, pale}
	across := map[string]string{"top": "bottom", "bottom": "top", "left": "right", "right": "left"}
	for i, side := range sides {
		stored := quarters(32, 48, [4]color.RGBA{
			seen[corner(side.row, side.column)], seen[corner(side.row, across[side.column])],
			seen[corner(across[side.row], side.column)], seen[corner(across[side.row], across[side.column])]})
		exif := exifOf(binary.BigEndian, uint16(i+1))
		size := image.Pt(32, 48)
		if i+1 >= 5 {
			size = image.Pt(48, 32)
		}
		for form, file := range map[string][]byte{
			"JPEG":                    withExif(asJPEG(t, stored), exif),
			"JPEG, the other order":   withExif(asJPEG(t, stored), exifOf(binary.LittleEndian, uint16(i+1))),
			"JPEG after another APP1": withSegment(withExif(asJPEG(t, stored), exif), 0xe1, []byte("http://ns.adobe.com/xap/1.0/\x00<x/>")),
			"PNG":                     withChunk(asPNG(t, stored), "eXIf", exif),
		} {
			p, err := Develop(file)
			require.NoError(t, err, form)
			m := opened(t, p.Large)
			require.Equal(t, size, m.Bounds().Size(), "%s, orientation %d", form, i+1)
			for at, c := range seen {
				x, y := size.X/4+at%2*size.X/2, size.Y/4+at/2*size.Y/2
				nearTo(t, c, m.At(x, y), form)
			}
			assert.Equal(t, upright, orientationOf(jpegKind, p.Large.JPEG), "it is not turned twice")
		}
		file := webpChunks(plainVP8X(32, 48), plainVP8L(32, 48, red), webpPart("EXIF", exif))
		p, err := Develop(file)
		require.NoError(t, err)
		assert.Equal(t, size, image.Pt(p.Large.Width, p.Large.Height), "WebP, orientation %d", i+1)
	}
}

func TestAnOrientationThatMakesNoSenseIsLeftAside(t *testing.T) {
	good := exifOf(binary.BigEndian, 6)
	for name, exif := range map[string][]byte{
		"none":                  nil,
		"nought":                exifOf(binary.BigEndian, 0),
		"nine":                  exifOf(binary.BigEndian, 9),
		"an order of bytes":     append([]byte("MI"), good[2:]...),
		"not 42":                append([]byte("MM\x00\x2b"), good[4:]...),
		"a directory far away":  append([]byte("MM\x00\x2a\xff\xff\xff\xff"), good[8:]...),
		"a directory cut short": good[:24],
		"no directory":          good[:8],
	} {
		assert.Equal(t, upright, readOrientation(exif), name)
	}
}

// Where it was taken and with what is in a photo's metadata; none of it is kept.
func TestNothingButThePictureIsKept(t *testing.T) {
	file := withExif(asJPEG(t, plain(64, 48, red)), exifOf(binary.LittleEndian, 1))
	file = withSegment(file, 0xfe, []byte("Ana's kitchen"))
	file = append(file, "PK\x03\x04<script>alert(1)</script>"...)
	require.Contains(t, string(file), cameraName)
	p, err := Develop(file)
	require.NoError(t, err)
	for _, one := range []Image{p.Large, p.Small} {
		assert.True(t, isBare(one.JPEG))
		for _, private := range []string{"Exif", "Ana", "PK\x03\x04", "<script"} {
			assert.NotContains(t, string(one.JPEG), private)
		}
	}
	for name, other := range map[string][]byte{"EXIF": file, "a comment": withSegment(p.Small.JPEG, 0xfe, []byte("hello")),
		"stray bytes": append([]byte{0xff, 0xd8, 'A', 'n', 'a'}, p.Small.JPEG[2:]...)} {
		assert.False(t, isBare(other), name)
	}
}

func TestRefused(t *testing.T) {
	whole := asJPEG(t, quarters(64, 48, [4]color.RGBA{red, green, blue, pale}))
	photoPNG := asPNG(t, quarters(64, 48, [4]color.RGBA{red, green, blue, pale}))
	for name, c := range map[string]struct {
		file []byte
		want string
	}{
		"nothing":                     {nil, "the file is empty; expected a JPEG, PNG, GIF or WebP picture"},
		"words":                       {[]byte("two onions"), "this is no picture"},
		"a page":                      {[]byte("<!doctype html><script>alert(1)</script>"), "this is no picture"},
		"a drawing with a program":    {[]byte(`<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>`), "SVG"},
		"a zip file":                  {[]byte("PK\x03\x04\x14\x00"), "zip file, or a document made of one; expected a JPEG, PNG, GIF or WebP picture: unpack it first"},
		"a PDF":                       {[]byte("%PDF-1.7\n"), "a picture of its page will do"},
		"a phone's own form":          {[]byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00"), "HEIC or AVIF, which is not read here; expected a JPEG, PNG, GIF or WebP picture: set the phone’s camera"},
		"a film":                      {[]byte("\x00\x00\x00\x18ftypisom\x00\x00\x00\x00"), "this is a film"},
		"TIFF":                        {exifOf(binary.BigEndian, 1), "TIFF"},
		"BMP":                         {[]byte("BM\x00\x00"), "BMP"},
		"half a JPEG":                 {whole[:len(whole)/2], "damaged, cut off"},
		"the start of a JPEG":         {whole[:3], "damaged, cut off"},
		"half a PNG":                  {photoPNG[:len(photoPNG)/2], "damaged, cut off"},
		"a GIF that is a script":      {[]byte("GIF89a/*\x00\x00\x00\x00*/=1;alert(1)//"), "can't be opened"},
		"a WebP of no picture":        {webpChunks(webpPart("VP8L", []byte("x"))), "can't be opened"},
		"no pixels":                   {pngHead(0, 4, 8, 2), "can't be opened"},
		"30 bytes of 268 megapixels":  {webpChunks(plainVP8L(16384, 16384, red)), "16384 by 16384 pixels, 268 megapixels; expected at most 50 megapixels"},
		"a PNG of 51 megapixels":      {pngHead(10_000, 5_100, 8, 2), "at most 50 megapixels"},
		"a PNG of 16 bits a colour":   {pngHead(7_000, 7_000, 16, 2), "49 megapixels; expected at most 37 megapixels for a picture of its sort"},
		"a JPEG of several scans":     {jpegHead(6_000, 5_000, 0xc2), "at most 25 megapixels"},
		"a PNG as wide as it can say": {pngHead(1<<31-1, 1, 8, 2), "at most 50 megapixels"},
		"a file of over 20 MB":        {append(whole, make([]byte, MostBytes)...), "at most 20 MB"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := Develop(c.file)
			var fault diagnostic.Fault
			require.ErrorAs(t, err, &fault)
			assert.Contains(t, fault.Error(), c.want)
			assert.NotEmpty(t, fault.Expected, "it says what to do")
		})
	}
	_, err := Develop(jpegHead(6_000, 5_000, 0xc0))
	assert.ErrorContains(t, err, "damaged", "of one scan it is not too large")
}

func TestLargePicturesAreScaled(t *testing.T) {
	for _, c := range []struct{ in, large, small image.Point }{
		{image.Pt(3000, 1000), image.Pt(1600, 533), image.Pt(400, 133)},
		{image.Pt(1000, 3001), image.Pt(533, 1600), image.Pt(133, 400)},
		{image.Pt(1601, 2), image.Pt(1600, 2), image.Pt(400, 1)},
		{image.Pt(6500, 1), image.Pt(1600, 1), image.Pt(400, 1)},
		{image.Pt(500, 400), image.Pt(500, 400), image.Pt(400, 320)},
	} {
		p, err := Develop(asPNG(t, plain(c.in.X, c.in.Y, green)))
		require.NoError(t, err)
		assert.Equal(t, c.large, image.Pt(p.Large.Width, p.Large.Height), "%v", c.in)
		assert.Equal(t, c.small, image.Pt(p.Small.Width, p.Small.Height), "%v", c.in)
		nearTo(t, green, opened(t, p.Large).At(0, 0), "a plain colour stays what it is")
	}
}

// Lines of one pixel have no place in a smaller picture: they become their mean, and no
// pattern that is not there.
func TestFineLinesBecomeTheirMean(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 700, 700))
	for i := range m.Pix {
		m.Pix[i] = byte(i % 2 * 255)
	}
	out := fitted(m, 100)
	for y := 10; y < 90; y += 7 {
		for x := 10; x < 90; x += 7 {
			assert.InDelta(t, 127, out.RGBAAt(x, y).R, 40, "%d, %d", x, y)
		}
	}
}

func TestFittedKeepsTheShape(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 300).Draw(t, "width"), rapid.IntRange(1, 300).Draw(t, "height")
		const most = 50
		out := fitted(plain(w, h, pale), most).Rect.Size()
		if max(w, h) <= most {
			require.Equal(t, image.Pt(w, h), out)
			return
		}
		require.Equal(t, most, max(out.X, out.Y))
		require.InDelta(t, float64(w)*most/float64(max(w, h)), out.X, 1)
		require.InDelta(t, float64(h)*most/float64(max(w, h)), out.Y, 1)
	})
}

func TestKeptTakesWhatDevelopMakesAndNothingElse(t *testing.T) {
	p, err := Develop(asPNG(t, quarters(900, 700, [4]color.RGBA{red, green, blue, pale})))
	require.NoError(t, err)
	again, err := Kept(p.Large.JPEG, p.Small.JPEG)
	require.NoError(t, err)
	assert.Equal(t, p, again)
	for name, large := range map[string][]byte{
		"nothing": nil, "PNG": asPNG(t, plain(10, 10, red)), "with EXIF": withExif(p.Large.JPEG, exifOf(binary.BigEndian, 1)),
		"too wide": asJPEG(t, plain(1601, 10, red)), "a page": []byte("<!doctype html>"),
	} {
		_, err := Kept(large, p.Small.JPEG)
		assert.ErrorContains(t, err, "no photo as it is kept here", name)
	}
	_, err = Kept(p.Large.JPEG, p.Large.JPEG)
	assert.ErrorContains(t, err, "no photo", "the small one is small")
}

func TestTheSamePictureHasTheSameDigestWhateverItsMetadata(t *testing.T) {
	file := asJPEG(t, plain(64, 48, red))
	a, err := Develop(file)
	require.NoError(t, err)
	b, err := Develop(withExif(file, exifOf(binary.BigEndian, 1)))
	require.NoError(t, err)
	assert.Equal(t, a.Digest(), b.Digest())
}

func TestADarkroomWaitsForAPlace(t *testing.T) {
	d := NewDarkroom(1)
	d.places <- struct{}{}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := d.Develop(ctx, asJPEG(t, plain(4, 4, red)))
	require.ErrorIs(t, err, context.Canceled)
	<-d.places
	for _, room := range []*Darkroom{d, nil} {
		_, err = room.Develop(t.Context(), asJPEG(t, plain(4, 4, red)))
		require.NoError(t, err)
	}
}

func TestCheck(t *testing.T) {
	p := Photo{Digest: "x", Picture: Picture{Image{Width: 1}, Image{Width: 1}}, Caption: strings.Repeat("é", MostCaption)}
	require.NoError(t, p.Check())
	p.Caption += "!"
	assert.ErrorContains(t, p.Check(), "over 200 characters")
	assert.ErrorContains(t, Photo{}.Check(), "no picture")
}

func FuzzDevelop(f *testing.F) {
	small := quarters(16, 12, [4]color.RGBA{red, green, blue, pale})
	exif := exifOf(binary.LittleEndian, 6)
	f.Add(withExif(asJPEG(f, small), exif))
	f.Add(withChunk(asPNG(f, small), "eXIf", exif))
	f.Add(asGIF(f, small, small))
	f.Add(webpChunks(plainVP8X(16, 12), plainVP8L(16, 12, red), webpPart("EXIF", exif)))
	f.Add(jpegHead(100, 100, 0xc2))
	f.Add(exif)
	f.Fuzz(func(t *testing.T, content []byte) {
		readOrientation(content)
		for _, k := range []kind{jpegKind, pngKind, webpKind} {
			o := orientationOf(k, content)
			require.True(t, o >= 1 && o <= 8)
		}
		const most = 64 << 10 // a larger one takes the fuzzer's time
		k, known := kindOf(content)
		if known {
			if size, err := decoderOf(k).size(bytes.NewReader(content)); err == nil && size.Width*size.Height > most {
				return
			}
		}
		p, err := Develop(content)
		if err != nil {
			return
		}
		_, err = Kept(p.Large.JPEG, p.Small.JPEG)
		require.NoError(t, err)
	})
}
