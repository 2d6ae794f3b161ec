// Package web holds the templates and static files of the pages.
package web

import "embed"

// Templates are the html/template files under templates/.
//
//go:embed templates/*.html
var Templates embed.FS

// Static are the style sheet, the script and the icon under static/.
//
//go:embed static/*
var Static embed.FS
