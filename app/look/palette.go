// Package look is how the window looks: colours, spacing, typeface and the
// drawn icons of the tools.
package look

import "image/color"

// Palette is a set of colours. Text on its ground has a contrast of at least
// 4.5:1 (WCAG 2.2, success criterion 1.4.3); a test measures it.
type Palette struct {
	Ground   color.NRGBA // of panels and the tray
	Raised   color.NRGBA // of buttons and fields
	Text     color.NRGBA
	Faint    color.NRGBA // text of less weight
	Line     color.NRGBA // dividers
	Accent   color.NRGBA // the one accent: what is active or chosen
	OnAccent color.NRGBA // text on it
	Soft     color.NRGBA // the accent as a ground, for what is chosen in a list
	Good     color.NRGBA // a check that holds
	Look     color.NRGBA // one that deserves a look
	Poor     color.NRGBA // one that is broken
}

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v), A: 255}
}

// Light is the palette of a bright room: unbleached paper, walnut ink, and
// one accent, madder.
var Light = Palette{
	Ground: rgb(0xf4efe6), Raised: rgb(0xfffdf8), Text: rgb(0x2d2621), Faint: rgb(0x655b51), Line: rgb(0xd9cfc0),
	Accent: rgb(0x9c3848), OnAccent: rgb(0xffffff), Soft: rgb(0xf0d9d6),
	Good: rgb(0x2f6b4f), Look: rgb(0x805300), Poor: rgb(0xa3231f),
}

// Dark is the palette of a dim room.
var Dark = Palette{
	Ground: rgb(0x262220), Raised: rgb(0x342f2b), Text: rgb(0xf1e9de), Faint: rgb(0xb9ada0), Line: rgb(0x4a433d),
	Accent: rgb(0xe78a95), OnAccent: rgb(0x2a1216), Soft: rgb(0x533036),
	Good: rgb(0x86c9a6), Look: rgb(0xe6b765), Poor: rgb(0xff9a90),
}
