// Package access says who may do what, what a passphrase must be and how it is
// kept, and how often one may be guessed. It knows no web and no storage.
package access
