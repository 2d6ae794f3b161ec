package daybook

import (
	"fmt"
	"unicode/utf8"
)

// Made is one time that a dish was made and what was thought of it.
type Made struct {
	ID        int64  `json:"-"`
	VersionID int64  `json:"version"`
	Date      Date   `json:"date"`
	Rating    Rating `json:"rating,omitempty"`
	Remark    string `json:"remark,omitempty"`
}

// Rating is how a dish turned out, from 1 to MostRating; 0 where nobody said.
type Rating int

// MostRating is the best rating.
const MostRating Rating = 5

// MostRemark is the most characters of a remark.
const MostRemark = 500

// Words is the rating in words, "" where nobody said.
func (r Rating) Words() string {
	words := []string{"", "once was enough", "wants changing", "fair enough", "gladly again", "fit for a feast"}
	if r < 0 || int(r) >= len(words) {
		return ""
	}
	return words[r]
}

// Check says what keeps it from being written down.
func (m Made) Check() error {
	switch {
	case m.VersionID == 0:
		return fmt.Errorf("made: no saved version given")
	case m.Rating < 0 || m.Rating > MostRating:
		return fmt.Errorf("made: rating %d: expected 0 to %d", m.Rating, MostRating)
	case utf8.RuneCountInString(m.Remark) > MostRemark:
		return fmt.Errorf("made: the remark has over %d characters", MostRemark)
	}
	if _, err := ParseDate(string(m.Date)); err != nil {
		return fmt.Errorf("made: %w", err)
	}
	return nil
}
