package recipe

// Beside gives the versions of a recipe that were saved between v's parent and v:
// work on the same parent that v does not hold. all are the recipe's versions.
func Beside(all []Version, v Version) []Version {
	parent := 0
	for _, other := range all {
		if other.ID == v.ParentID {
			parent = other.Number
		}
	}
	var beside []Version
	for _, other := range all {
		if parent > 0 && parent < other.Number && other.Number < v.Number {
			beside = append(beside, other)
		}
	}
	return beside
}
