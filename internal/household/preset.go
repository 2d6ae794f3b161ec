package household

// YourClinicianFirst ends the words of every preset.
const YourClinicianFirst = "A starting point: your clinician's figure comes first."

// Preset is a published limit on offer; it is never imposed.
type Preset struct {
	ID    string
	Title string
	// Limits it would set, none where the source gives no figure for all.
	Limits []Limit
	// AgeFrom and AgeTo are the years of age it is for, both ends included;
	// AgeTo 0 means no upper end.
	AgeFrom, AgeTo int
	Note           string // ends with YourClinicianFirst
	Source         string
	Date           string // of the publication
	// FromMemory marks a figure that was not read in the document itself.
	FromMemory bool
}

// ForAge reports whether the preset is meant for that age; 0 (not told) fits
// only presets for grown-ups.
func (p Preset) ForAge(age int) bool {
	if age == 0 {
		return p.AgeTo == 0
	}
	return age >= p.AgeFrom && (p.AgeTo == 0 || age <= p.AgeTo)
}

// PlanPreset is a published allowance plan on offer; its allowance is left for
// the household to fill in.
type PlanPreset struct {
	ID         string
	Title      string
	Plan       Plan
	Note       string
	Source     string
	Date       string
	FromMemory bool
}
