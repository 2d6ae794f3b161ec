package photo

import (
	"bytes"
	"encoding/binary"
)

// orientation is how the rows and columns of a picture lie, 1 to 8 (EXIF 2.3, 4.6.4
// A, tag 0112): 1 is upright, 3 upside down, 6 and 8 a quarter turned; 2, 4, 5 and 7
// are the mirror images of these.
type orientation int

const upright orientation = 1

// orientationOf finds how a file says that it lies; upright where it does not say, or
// not readably.
func orientationOf(k kind, content []byte) orientation {
	var exif []byte
	switch k {
	case jpegKind:
		exif = jpegExif(content)
	case pngKind:
		exif = chunk(content, len("\x89PNG\r\n\x1a\n"), pngChunk)
	case webpKind:
		exif = chunk(content, len("RIFF0000WEBP"), webpChunk)
	}
	// Some programs put a JPEG's header before it in other forms too.
	return readOrientation(bytes.TrimPrefix(exif, exifHeader))
}

// exifHeader stands before the TIFF structure in a JPEG (EXIF 2.3, 4.7.2).
var exifHeader = []byte("Exif\x00\x00")

// Markers of JPEG (ITU-T T.81, table B.1).
const (
	markerSOF2 = 0xc2 // progressive
	markerRST0 = 0xd0
	markerRST7 = 0xd7
	markerSOS  = 0xda // the picture's own bytes follow
	markerEOI  = 0xd9
	markerAPP0 = 0xe0
	markerAPP1 = 0xe1
	markerAPPF = 0xef
	markerCOM  = 0xfe
)

// segments visits the segments of a JPEG before the picture's own bytes until visit is
// false. Bytes that belong to none, which decoders pass over, are visited as marker 0.
func segments(content []byte, visit func(marker byte, payload []byte) bool) {
	rest := content[min(2, len(content)):]
	for len(rest) >= 4 {
		marker := rest[1]
		switch {
		case rest[0] != 0xff || marker == 0:
			if !visit(0, nil) {
				return
			}
			rest = rest[1:]
			continue
		case marker == 0xff: // fill bytes (B.1.1.2)
			rest = rest[1:]
			continue
		case marker >= markerRST0 && marker <= markerRST7: // has no length
			rest = rest[2:]
			continue
		case marker == markerSOS || marker == markerEOI:
			return
		}
		n := int(binary.BigEndian.Uint16(rest[2:])) // counts itself
		if n < 2 || 2+n > len(rest) || !visit(marker, rest[4:2+n]) {
			return
		}
		rest = rest[2+n:]
	}
}

func jpegExif(content []byte) (exif []byte) {
	segments(content, func(marker byte, payload []byte) bool {
		if marker == markerAPP1 && bytes.HasPrefix(payload, exifHeader) {
			exif = payload[len(exifHeader):]
		}
		return exif == nil
	})
	return exif
}

// isProgressive reports whether the JPEG is coded in several scans, which takes more
// memory to open.
func isProgressive(content []byte) (yes bool) {
	segments(content, func(marker byte, _ []byte) bool {
		yes = marker == markerSOF2
		return !yes
	})
	return yes
}

// isBare reports whether a JPEG holds nothing but the picture: no segment of an
// application, no comment, no stray bytes.
func isBare(content []byte) bool {
	bare := true
	segments(content, func(marker byte, _ []byte) bool {
		bare = marker != 0 && marker != markerCOM && (marker < markerAPP0 || marker > markerAPPF)
		return bare
	})
	return bare
}

// chunkForm is how a file of chunks says what each is and how long.
type chunkForm struct {
	exif       string
	head, tail int // bytes around the content
	// read gives name and length from the head.
	read func(head []byte) (name string, length uint32)
	even bool // an odd content is followed by one more byte
}

// PNG (third edition, 5.3 and 11.3.4.5) and WebP (RFC 9649, 2.3 and 2.7.1.5).
var (
	pngChunk = chunkForm{exif: "eXIf", head: 8, tail: 4, read: func(h []byte) (string, uint32) {
		return string(h[4:8]), binary.BigEndian.Uint32(h)
	}}
	webpChunk = chunkForm{exif: "EXIF", head: 8, even: true, read: func(h []byte) (string, uint32) {
		return string(h[:4]), binary.LittleEndian.Uint32(h[4:])
	}}
)

// chunk finds the EXIF chunk of a file whose chunks begin at start.
func chunk(content []byte, start int, form chunkForm) []byte {
	rest := content[min(start, len(content)):]
	for len(rest) >= form.head {
		name, length := form.read(rest)
		rest = rest[form.head:]
		if int64(length) > int64(len(rest)) {
			return nil
		}
		if name == form.exif {
			return rest[:length]
		}
		after := int64(length) + int64(form.tail)
		if form.even {
			after += int64(length % 2)
		}
		rest = rest[min(after, int64(len(rest))):]
	}
	return nil
}

// The parts of a TIFF structure that are read (TIFF 6.0, section 2).
const (
	tiffHeader     = 8  // byte order, 42, offset of the first directory
	tiffEntry      = 12 // tag, type, count, value
	tiffMagic      = 42
	tiffShort      = 3
	tagOrientation = 0x0112
)

// readOrientation reads the tag from the first directory of a TIFF structure.
func readOrientation(tiff []byte) orientation {
	if len(tiff) < tiffHeader {
		return upright
	}
	var order binary.ByteOrder = binary.LittleEndian
	switch string(tiff[:2]) {
	case "II":
	case "MM":
		order = binary.BigEndian
	default:
		return upright
	}
	at := int64(order.Uint32(tiff[4:]))
	if order.Uint16(tiff[2:]) != tiffMagic || at+2 > int64(len(tiff)) {
		return upright
	}
	entries := tiff[at+2:]
	for range order.Uint16(tiff[at:]) {
		if len(entries) < tiffEntry {
			return upright
		}
		if order.Uint16(entries) == tagOrientation {
			o := orientation(order.Uint16(entries[8:]))
			if order.Uint16(entries[2:]) != tiffShort || o < 1 || o > 8 {
				return upright
			}
			return o
		}
		entries = entries[tiffEntry:]
	}
	return upright
}
