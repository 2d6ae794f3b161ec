package diagnostic

// distance is the edit distance of a and b, two neighbours that changed places
// counting as one edit, or limit when it is that or more.
func distance(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	if len(x)-len(y) >= limit || len(y)-len(x) >= limit {
		return limit
	}
	var before []int // the row before prev
	prev := make([]int, len(y)+1)
	for j := range prev {
		prev[j] = j
	}
	for i, c := range x {
		row := make([]int, len(y)+1)
		row[0] = i + 1
		for j, d := range y {
			cost := 1
			if c == d {
				cost = 0
			}
			row[j+1] = min(row[j]+1, prev[j+1]+1, prev[j]+cost)
			if i > 0 && j > 0 && c == y[j-1] && x[i-1] == d {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
		before, prev = prev, row
	}
	return min(prev[len(y)], limit)
}
