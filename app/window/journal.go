package window

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"

	"truemat/app/desk"
	"truemat/ops/store"
)

// journal keeps unsaved work on disk, so that after a crash the next start can
// offer it back. Each running program has a file of its own, named by its
// process. Writing happens away from the window's thread; of several states
// that wait, only the newest is written.
type journal struct {
	dir  string
	path string

	mu      sync.Mutex
	waiting *store.Document // nil when nothing waits
	drop    bool            // the work is saved: take the file away
	running bool
	idle    sync.WaitGroup
}

const journalStem = "unsaved-"

func newJournal(dir string) *journal {
	return &journal{dir: dir, path: filepath.Join(dir, journalStem+strconv.Itoa(os.Getpid())+ending)}
}

// journalDir is where journals lie.
func journalDir() (string, error) {
	dir, err := os.UserCacheDir()
	return filepath.Join(dir, "truemat"), err
}

// keep writes the document when it would be lost otherwise, and takes the
// journal away when not.
func (j *journal) keep(doc store.Document, unsaved bool) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if unsaved {
		j.waiting, j.drop = &doc, false
	} else {
		j.waiting, j.drop = nil, true
	}
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
		doc, drop := j.waiting, j.drop
		j.waiting, j.drop = nil, false
		if doc == nil && !drop {
			j.running = false
			j.mu.Unlock()
			return
		}
		j.mu.Unlock()
		if drop {
			os.Remove(j.path)
			continue
		}
		// A disk that takes no journal must not disturb the work.
		if os.MkdirAll(j.dir, 0o700) == nil {
			_ = store.WriteFile(j.path, func(w io.Writer) error { return store.Write(w, *doc) })
		}
	}
}

// close takes the journal away: the program is left on purpose.
func (j *journal) close() {
	j.mu.Lock()
	j.waiting, j.drop = nil, false
	j.mu.Unlock()
	j.idle.Wait()
	os.Remove(j.path)
}

// left lists the journals of programs that run no more.
func (j *journal) left() []string {
	files, _ := filepath.Glob(filepath.Join(j.dir, journalStem+"*"+ending))
	var out []string
	for _, f := range files {
		id := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(f), journalStem), ending)
		if pid, err := strconv.Atoi(id); err == nil && !alive(pid) {
			out = append(out, f)
		}
	}
	return out
}

func alive(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	err = p.Signal(syscall.Signal(0))
	return err == nil || os.IsPermission(err)
}

// startJournal keeps a journal from now on and offers back what an earlier
// program left.
func (w *Window) startJournal(dir string) {
	w.journal = newJournal(dir)
	for _, f := range w.journal.left() {
		doc, err := store.Load(f)
		if err != nil {
			os.Remove(f)
			continue
		}
		w.ask("Work was left unsaved", fmt.Sprintf("When Truemat ended last, %s with %d steps was not saved. It can be taken up where it was.", doc.Source.Name, len(doc.Recipe)),
			[]string{"Take it up", "Throw it away"}, func(i int) {
				if i == 0 {
					w.recover(f, doc)
					return
				}
				os.Remove(f)
			})
		return
	}
}

// recover lays work that was left on the mat. Its journal goes when it is
// saved under a name or the program is left on purpose.
func (w *Window) recover(path string, doc store.Document) {
	d, err := desk.New(doc, "")
	if err != nil {
		w.prompt.say(err)
		w.show()
		return
	}
	w.put(d)
	w.precious = true
	w.replaced()
	w.journal.idle.Wait()
	os.Remove(path)
}
