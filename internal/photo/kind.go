package photo

import (
	"bytes"
	"strings"

	"potwright/internal/diagnostic"
)

// kind is a form of picture that is read.
type kind string

const (
	jpegKind kind = "JPEG"
	pngKind  kind = "PNG"
	gifKind  kind = "GIF"
	webpKind kind = "WebP"
)

const anyKind = "a JPEG, PNG, GIF or WebP picture"

// kindOf tells the form by its first bytes: ITU-T T.81 B.1.1 (JPEG), PNG 5.2, GIF89a
// section 17, RFC 9649 section 2.4 (WebP). Names and headers are not asked.
func kindOf(content []byte) (kind, bool) {
	switch {
	case bytes.HasPrefix(content, []byte("\xff\xd8\xff")):
		return jpegKind, true
	case bytes.HasPrefix(content, []byte("\x89PNG\r\n\x1a\n")):
		return pngKind, true
	case bytes.HasPrefix(content, []byte("GIF87a")), bytes.HasPrefix(content, []byte("GIF89a")):
		return gifKind, true
	case len(content) >= 12 && string(content[:4]) == "RIFF" && string(content[8:12]) == "WEBP":
		return webpKind, true
	}
	return "", false
}

// notAPicture says what the file seems to be, where that can be told, and what to send.
func notAPicture(content []byte) diagnostic.Fault {
	f := diagnostic.Fault{Problem: "this is no picture of a sort that is read here", Expected: anyKind}
	start := content[:min(len(content), 512)]
	switch {
	case len(content) == 0:
		f.Problem = "the file is empty"
	case len(start) >= 12 && string(start[4:8]) == "ftyp" && isHEIF(string(start[8:12])):
		f.Problem = "this picture is HEIC or AVIF, which is not read here"
		f.Expected += ": set the phone’s camera to “most compatible”, or open the picture and save it as JPEG"
	case len(start) >= 8 && string(start[4:8]) == "ftyp":
		f.Problem = "this is a film"
		f.Expected += ": a still of it will do"
	case bytes.HasPrefix(start, []byte("%PDF")):
		f.Problem = "this is a PDF document"
		f.Expected += ": a picture of its page will do"
	case bytes.HasPrefix(start, []byte("PK\x03\x04")):
		f.Problem = "this is a zip file, or a document made of one"
		f.Expected += ": unpack it first"
	case bytes.HasPrefix(start, []byte("II*\x00")), bytes.HasPrefix(start, []byte("MM\x00*")):
		f.Problem = "this picture is TIFF, or raw from a camera, which is not read here"
		f.Expected += ": open it and save it as JPEG"
	case bytes.HasPrefix(start, []byte("BM")):
		f.Problem = "this picture is BMP, which is not read here"
		f.Expected += ": open it and save it as PNG or JPEG"
	case strings.Contains(strings.ToLower(string(start)), "<svg"):
		f.Problem = "this is a drawing (SVG), which may hold a program"
	}
	return f
}

// isHEIF reports whether the major brand is of a still picture of ISO/IEC 23008-12 or
// of AVIF.
func isHEIF(brand string) bool {
	switch brand {
	case "heic", "heix", "hevc", "heim", "heis", "mif1", "msf1", "avif", "avis":
		return true
	}
	return false
}
