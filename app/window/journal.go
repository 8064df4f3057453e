package window

import (
	"fmt"
	"path/filepath"
	"sync"

	"fyne.io/fyne/v2"
	"truemat/app/desk"
	"truemat/ops/store"
)

// journal keeps unsaved work on disk, away from the window's thread; of
// several states that wait, only the newest is written.
type journal struct {
	file    *store.Journal
	trouble func(error) // told when work cannot be kept, and with nil when it can be again

	mu      sync.Mutex
	waiting *state // nil when nothing waits
	running bool
	failed  bool
	idle    sync.WaitGroup
}

// state is what the journal is to hold; with none, nothing.
type state struct {
	doc  store.Document
	path string
	none bool
}

var _ desk.Journal = (*journal)(nil)

// Write keeps the document in place of what was kept.
func (j *journal) Write(doc store.Document, path string) error {
	j.put(state{doc: doc, path: path})
	return nil
}

// Clear takes away what was kept.
func (j *journal) Clear() error {
	j.put(state{none: true})
	return nil
}

func (j *journal) put(s state) {
	j.mu.Lock()
	defer j.mu.Unlock()
	j.waiting = &s
	if !j.running {
		j.running = true
		j.idle.Add(1)
		go j.work()
	}
}

func (j *journal) work() {
	defer j.idle.Done()
	for {
		j.mu.Lock()
		s := j.waiting
		j.waiting = nil
		if s == nil {
			j.running = false
			j.mu.Unlock()
			return
		}
		j.mu.Unlock()
		var err error
		if s.none {
			err = j.file.Clear()
		} else {
			err = j.file.Write(s.doc, s.path)
		}
		if j.failed || err != nil {
			j.failed = err != nil
			j.trouble(err)
		}
	}
}

// startJournal keeps a journal in a folder from now on, and offers back what
// an earlier program left there.
func (w *Window) startJournal(dir string) {
	w.journal = &journal{file: store.NewJournal(dir), trouble: func(err error) {
		fyne.Do(func() {
			w.prompt.say(err)
			w.show()
		})
	}}
	w.desk.Keep(w.journal)
	all, err := store.LostIn(dir)
	for _, l := range all {
		if l.Damage != nil {
			err = l.Damage
			continue
		}
		w.ask("Work was left unsaved", fmt.Sprintf("When Truemat ended last, %s was not saved; it was changed last on %s. It can be taken up where it was; Undo then takes back its steps one by one. Esc closes this page and leaves the work where it is kept: the next start offers it again.", left(l), l.When.Local().Format("2 January at 15:04")),
			[]string{"Take it up", "Throw it away"}, func(i int) {
				if i == 0 {
					w.recover(l)
				} else {
					w.complain(l.Discard())
				}
			})
		break
	}
	w.complain(err)
}

// left says what work holds, and where it was saved last.
func left(l store.Lost) string {
	doc := l.Document
	said := fmt.Sprintf("%q", doc.Source.Name)
	if l.Path != "" {
		said = fmt.Sprintf("%q", filepath.Base(l.Path))
	}
	said += " with " + counted(len(doc.Recipe), "step", "steps")
	if n := len(doc.Goods.Cloths); n > 0 {
		said += ", " + counted(n, "cloth", "cloths")
	}
	if n := len(doc.Goods.Elastics); n > 0 {
		said += ", " + counted(n, "elastic", "elastics")
	}
	return said
}

// recover lays work that was left on the mat. What was left goes once it is
// kept anew.
func (w *Window) recover(l store.Lost) {
	d, err := desk.Recover(l)
	if err != nil {
		w.complain(err)
		return
	}
	w.replace(d)
	w.lessonAgain()
	w.journal.idle.Wait()
	if !w.journal.failed {
		w.complain(l.Discard())
	}
}

// complain tells what went wrong, when something did.
func (w *Window) complain(err error) {
	if err != nil {
		w.prompt.say(err)
		w.show()
	}
}
