package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"truemat/assets"
)

// Grid is the unit of spacing: distances in the window are multiples of it.
const Grid = 4

// Theme is Truemat's own theme for the toolkit.
type Theme struct {
	Palette Palette
}

var _ fyne.Theme = Theme{}

// New returns the theme for a bright room or a dim one.
func New(dark bool) Theme {
	if dark {
		return Theme{Dark}
	}
	return Theme{Light}
}

var (
	regular = fyne.NewStaticResource("regular.ttf", roomy(assets.FontRegular()))
	bold    = fyne.NewStaticResource("bold.ttf", roomy(assets.FontBold()))
)

// Color returns the palette's colour for what the toolkit calls it; the
// toolkit's own light or dark variant is not asked.
func (t Theme) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	p := t.Palette
	switch name {
	case theme.ColorNameBackground, theme.ColorNameMenuBackground, theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground:
		return p.Ground
	case theme.ColorNameButton, theme.ColorNameInputBackground:
		return p.Raised
	case theme.ColorNameForeground:
		return fullInk(p.Text)
	case theme.ColorNamePlaceHolder, theme.ColorNameDisabled:
		return p.Faint
	case theme.ColorNamePrimary, theme.ColorNameHyperlink:
		return p.Accent
	case theme.ColorNameForegroundOnPrimary:
		return p.OnAccent
	case theme.ColorNameFocus:
		return faded(p.Accent, 0x80)
	case theme.ColorNameSelection:
		return p.Soft
	case theme.ColorNameHover:
		return faded(p.Accent, 0x1c)
	case theme.ColorNamePressed:
		return faded(p.Accent, 0x40)
	case theme.ColorNameSeparator, theme.ColorNameInputBorder, theme.ColorNameDisabledButton:
		return p.Line
	case theme.ColorNameScrollBar:
		return faded(p.Faint, 0x90)
	case theme.ColorNameScrollBarBackground:
		return color.Transparent
	case theme.ColorNameShadow:
		return color.NRGBA{A: 0x24}
	case theme.ColorNameError:
		return p.Poor
	case theme.ColorNameWarning:
		return p.Look
	case theme.ColorNameSuccess:
		return p.Good
	}
	return p.Text
}

// fullInk is a colour of writing that stays full where the toolkit means to fade it
// a little: for the shortcuts in menus it takes 0.95 of the alpha in 16 bits
// and of that the lower byte, 50 of 255 for a colour without transparency. This
// alpha, full in 8 bits, gives 255.
type fullInk color.NRGBA

const inkAlpha = 0xffca // uint8(0.95 · 0xffca) is 0xff

// RGBA returns the colour; both bytes of a channel are alike.
func (i fullInk) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = color.NRGBA(i).RGBA()
	return min(r, inkAlpha), min(g, inkAlpha), min(b, inkAlpha), inkAlpha
}

func faded(c color.NRGBA, a uint8) color.NRGBA {
	c.A = a
	return c
}

// Font returns the embedded typeface; the toolkit's own for symbols and code.
func (t Theme) Font(s fyne.TextStyle) fyne.Resource {
	switch {
	case s.Monospace || s.Symbol:
		return theme.DefaultTheme().Font(s)
	case s.Bold:
		return bold
	}
	return regular
}

// Icon returns the toolkit's small signs, in the theme's colours.
func (t Theme) Icon(name fyne.ThemeIconName) fyne.Resource { return theme.DefaultTheme().Icon(name) }

// Size returns sizes on the grid.
func (t Theme) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNamePadding:
		return Grid
	case theme.SizeNameInnerPadding:
		return 2 * Grid
	case theme.SizeNameText:
		return 14
	case theme.SizeNameCaptionText:
		return 12
	case theme.SizeNameSubHeadingText:
		return 16
	case theme.SizeNameHeadingText:
		return 20
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 5
	case theme.SizeNameScrollBar:
		return 10
	case theme.SizeNameScrollBarSmall:
		return 4
	case theme.SizeNameSeparatorThickness, theme.SizeNameInputBorder:
		return 1
	}
	return theme.DefaultTheme().Size(name)
}
