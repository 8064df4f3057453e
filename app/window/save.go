package window

import (
	"fmt"
	"path/filepath"
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

// saves is the document on its way to the disk, which may be slow.
type saves struct {
	writing sync.WaitGroup
	under   string   // the path that is being written, "" for none
	then    []func() // saves that were asked for meanwhile
}

// slowSave is after how long it is told that the document is being saved.
const slowSave = 300 * time.Millisecond

// saveTo saves as the document is now, away from the window's thread, tells how
// that went, and goes on when it did. One save is made after the other.
func (w *Window) saveTo(path string, told func(error), on func()) {
	s, d, name := &w.saves, w.desk, filepath.Base(path)
	if s.under != "" {
		s.then = append(s.then, func() { w.saveTo(path, told, on) })
		return
	}
	write, done := d.Saving(path)
	s.under = path
	explained := false
	if w.running {
		time.AfterFunc(slowSave, func() {
			fyne.Do(func() {
				if s.under == path && w.prompt.about == "" {
					explained = true
					w.prompt.explain("Saving " + name + " …")
				}
			})
		})
	}
	s.writing.Add(1)
	var err error
	w.away(func() {
		defer s.writing.Done()
		err = write()
	}, func() {
		then := s.then
		s.under, s.then = "", nil
		if explained {
			w.prompt.explain("")
		}
		w.saved(path, err, told, func() {
			if w.desk == d { // else another document was opened meanwhile
				done()
				w.keepShown()
			}
		}, on)
		for _, save := range then {
			save()
		}
	})
}

// saved tells how a save went, and goes on when it did.
func (w *Window) saved(path string, err error, told func(error), done, on func()) {
	if err != nil {
		told(fmt.Errorf("not saved: %w", err))
		return
	}
	done()
	told(nil)
	w.remember(path)
	w.show()
	w.prompt.report(filepath.Base(path) + " is saved.")
	if on != nil {
		on()
	}
}
