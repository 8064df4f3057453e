package window

import "fyne.io/fyne/v2"

// away does work that may take long away from the window's thread, and then
// what follows from it on that thread. Before the window runs, as in tests and
// pictures, it all happens at once.
func (w *Window) away(work, then func()) {
	if !w.running {
		work()
		then()
		return
	}
	go func() {
		work()
		fyne.Do(then)
	}()
}
