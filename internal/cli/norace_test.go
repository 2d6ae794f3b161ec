//go:build !race

package cli_test

// slowed is set where commands run under the race detector, six times as slow.
const slowed = false
