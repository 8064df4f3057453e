package desk

import "truemat/ops/store"

// Journal is where unsaved work is kept, so that it can be offered back after
// a crash. An error says why it cannot be at present.
type Journal interface {
	Write(doc store.Document, path string) error
	Clear() error
}

// Recover returns a desk with work that an earlier run of the program left
// behind. It is unsaved; discard what was left once Keep has it in a new journal.
func Recover(l store.Lost) (*Desk, error) {
	if l.Damage != nil {
		return nil, l.Damage
	}
	d, err := New(l.Document, l.Path)
	if err != nil {
		return nil, err
	}
	d.Treasure()
	return d, nil
}

// Keep writes unsaved work to the journal now and after every change; Save and
// Close clear it. What it could not do is told by Trouble.
func (d *Desk) Keep(j Journal) {
	d.journal = j
	d.keep()
}

// Trouble returns why unsaved work cannot be kept at present, or nil.
func (d *Desk) Trouble() error { return d.trouble }

// Close gives up what is not saved: nothing is left to be offered back.
func (d *Desk) Close() error {
	if d.journal == nil {
		return nil
	}
	j := d.journal
	d.journal = nil
	return j.Clear()
}

func (d *Desk) keep() {
	if d.journal == nil {
		return
	}
	if d.WorthKeeping() {
		d.trouble = d.journal.Write(d.Document(), d.path)
	} else {
		d.trouble = d.journal.Clear()
	}
}

// Treasure says that the document is work that is on disk nowhere else, though
// no step was taken yet: lost work taken up again, or a drawing brought in.
func (d *Desk) Treasure() { d.saved, d.treasured = -1, true }

// WorthKeeping reports whether the document differs from what is on disk. One
// that was never saved nor altered can be had again from where it came.
func (d *Desk) WorthKeeping() bool {
	return d.Unsaved() && (d.treasured || d.path != "" || d.history.Version() != d.opened)
}
