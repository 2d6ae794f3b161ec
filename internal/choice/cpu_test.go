package choice

import (
	"syscall"
	"time"
)

// cpuTime is the processor time this program has taken, all threads together:
// on a shared machine it says more than the clock. 0 where it is not known.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if syscall.Getrusage(syscall.RUSAGE_SELF, &u) != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
