package mat

import (
	"image/color"

	"truemat/app/look"
)

// Palette holds the colours of a mat. Text and lines that must be read keep a
// contrast of at least 4.5:1 to what they lie on.
type Palette struct {
	Ground               color.NRGBA // the mat
	Minor, Middle, Major color.NRGBA // its grid
	Ruler, RulerInk      color.NRGBA
	Paper, Allowance     color.NRGBA // inside the sew line, and between it and the cut line
	Cut, Sew, Ink        color.NRGBA // lines and writing on paper
	Faint                color.NRGBA // ghosts and neighbouring sizes
	Shadow               color.NRGBA
	Accent, OnAccent     color.NRGBA // what is chosen, and writing on it
	Guide                color.NRGBA
	Good, Poor           color.NRGBA
	Note, NoteInk        color.NRGBA
}

// Light is the mat by day: linen, cream paper, the accent of the window.
func Light() Palette {
	return Palette{
		Ground: rgb(0xE6DED1), Minor: rgb(0xDFD6C8), Middle: rgb(0xD6CBBA), Major: rgb(0xC3B49F),
		Ruler: rgb(0xF2ECE2), RulerInk: rgb(0x5B5044),
		Paper: rgb(0xFFFCF6), Allowance: rgb(0xF3E8D9),
		Cut: rgb(0x2E2722), Sew: rgb(0x6A5A4D), Ink: rgb(0x3B322B),
		Faint:  rgb(0x85766A),
		Shadow: color.NRGBA{0x4A, 0x38, 0x28, 0x38},
		Accent: look.Light.Accent, OnAccent: look.Light.OnAccent,
		Guide: rgb(0x2F5F7A),
		Good:  look.Light.Good, Poor: look.Light.Poor,
		Note: rgb(0x2E2722), NoteInk: rgb(0xFFF8EC),
	}
}

// Dark is the mat by lamplight.
func Dark() Palette {
	return Palette{
		Ground: rgb(0x262320), Minor: rgb(0x2D2A26), Middle: rgb(0x35312C), Major: rgb(0x49423B),
		Ruler: rgb(0x1E1B19), RulerInk: rgb(0xB9AC9C),
		Paper: rgb(0x3E3833), Allowance: rgb(0x322D29),
		Cut: rgb(0xF1E7DA), Sew: rgb(0xC4B6A5), Ink: rgb(0xEFE5D8),
		Faint:  rgb(0xA89A8B),
		Shadow: color.NRGBA{0, 0, 0, 0x60},
		Accent: look.Dark.Accent, OnAccent: look.Dark.OnAccent,
		Guide: rgb(0x9CCBE6),
		Good:  look.Dark.Good, Poor: look.Dark.Poor,
		Note: rgb(0xF3EADD), NoteInk: rgb(0x2A2521),
	}
}

type colour = color.NRGBA

func rgb(v uint32) color.NRGBA {
	return color.NRGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 0xff}
}

func fade(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}
