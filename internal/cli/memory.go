package cli

import (
	"os"
	"runtime/debug"
)

// What memory may hold, by how much it may grow over what is in use before it is cleared
// up. GOGC and GOMEMLIMIT in the environment go first.
const (
	// servingGrowth, per cent, keeps the pages of 1,000 recipes under 200 requests a second
	// at some 140 MB: a small computer at home does other things too. It follows what is
	// kept at hand, where a fixed bound would have a household of 10,000 recipes cleared
	// up after all the time.
	servingGrowth = 50
	// A sweep from the command line has the computer to itself and ends soon: it clears up
	// rarely below sweepingMemory, bytes.
	sweepingGrowth = 400
	sweepingMemory = 220 << 20
)

// serveInMemory is for a program that stays.
func serveInMemory() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(servingGrowth)
	}
}

// sweepInMemory is for a program that ends once it has swept; what it gives ends it.
func sweepInMemory() (end func()) {
	if os.Getenv("GOGC") != "" || os.Getenv("GOMEMLIMIT") != "" {
		return func() {}
	}
	growth, limit := debug.SetGCPercent(sweepingGrowth), debug.SetMemoryLimit(sweepingMemory)
	return func() {
		debug.SetGCPercent(growth)
		debug.SetMemoryLimit(limit)
	}
}
