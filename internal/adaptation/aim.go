package adaptation

// Aim is what an answer is best at. The cost levels that it does not put first
// keep their order and decide among equals.
type Aim string

// Aims.
const (
	LeastChange Aim = ""       // to the dish and to portions
	LeastEffort Aim = "effort" // for the cook
	MostRoom    Aim = "room"   // under everyone's limits
)

// Known reports whether it is one of the aims.
func (a Aim) Known() bool { return a == LeastChange || a == LeastEffort || a == MostRoom }

// order lists the cost levels as a search compares them.
func (a Aim) order() [levels]int {
	switch a {
	case LeastEffort:
		return [levels]int{levelEffort, levelChange, levelCount, levelRoom}
	case MostRoom:
		return [levels]int{levelRoom, levelChange, levelEffort, levelCount}
	default:
		return [levels]int{levelChange, levelEffort, levelCount, levelRoom}
	}
}

// ranked puts a cost by level into the order that the search compares.
func (a Aim) ranked(byLevel []int64) []int64 {
	out := make([]int64, levels)
	for place, level := range a.order() {
		out[place] = byLevel[level]
	}
	return out
}

// byLevel is ranked undone.
func (a Aim) byLevel(ranked []int64) []int64 {
	out := make([]int64, levels)
	for place, level := range a.order() {
		out[level] = ranked[place]
	}
	return out
}
