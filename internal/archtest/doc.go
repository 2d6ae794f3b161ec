// Package archtest holds the tests that keep imports pointing inward.
package archtest
