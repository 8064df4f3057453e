// Package assets holds what the program carries with it.
package assets

import (
	_ "embed"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// FontFamily is the name of the typeface of all drawings: the Go fonts of the
// Bigelow & Holmes foundry, a humanist sans-serif with Latin, Greek and
// Cyrillic letters, free to embed.
const FontFamily = "Go"

// FontLicence is the licence of the typeface.
//
//go:embed font-licence.txt
var FontLicence string

// FontRegular returns the TrueType file of the upright face; not to be written to.
func FontRegular() []byte { return goregular.TTF }

// FontBold returns the TrueType file of the bold face; not to be written to.
func FontBold() []byte { return gobold.TTF }
