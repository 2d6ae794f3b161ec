package photo

import (
	"bytes"
	"image/jpeg"

	"potwright/internal/diagnostic"
)

// mostKept is the most that a file that was kept may hold, bytes: over what 1600 by 1600
// pixels of noise take.
const mostKept = 4 << 20

// Kept is a picture of two files that were kept before, such as those of an archive.
// They stay as they are, byte for byte; a diagnostic.Fault says why they are none that
// Develop makes.
func Kept(large, small []byte) (Picture, error) {
	var p Picture
	for _, one := range []struct {
		into    *Image
		content []byte
		most    int
	}{{&p.Large, large, LargeSide}, {&p.Small, small, SmallSide}} {
		size, err := jpeg.DecodeConfig(bytes.NewReader(one.content))
		if err != nil || len(one.content) > mostKept || size.Width < 1 || size.Height < 1 || max(size.Width, size.Height) > one.most || !isBare(one.content) {
			return Picture{}, diagnostic.Fault{Problem: "this is no photo as it is kept here",
				Expected: "a JPEG of at most 1600 pixels a side, and a small one of at most 400, with nothing but the picture in them"}
		}
		*one.into = Image{one.content, size.Width, size.Height}
	}
	return p, nil
}
