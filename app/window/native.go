package window

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver"
)

// failed reports whether a window that was shown did not come to be, as on an
// X display without OpenGL (the GLX extension); the toolkit would then go on
// without any.
func failed(win fyne.Window) bool {
	native, ok := win.(driver.NativeWindow)
	if !ok {
		return false
	}
	none := false
	native.RunNative(func(context any) {
		x, ok := context.(driver.X11WindowContext)
		none = ok && x.WindowHandle == 0
	})
	return none
}
