// Package pages is the household's pages: plain server-rendered HTML forms that
// do the whole job without a script. Every handler returns an error and one
// place turns it into a page.
package pages
