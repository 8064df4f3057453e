package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"time"
)

// Journal keeps the unsaved work of one document of the running process, so
// that the next start can offer it back when this one ends without saving. It
// is used from one goroutine.
type Journal struct {
	dir, file string
}

// Lost is unsaved work that a process which is no longer running left behind.
type Lost struct {
	Journal  string    // the file it is kept in
	Path     string    // where the document was saved last, "" when nowhere
	When     time.Time // of the last change
	Document Document
	Damage   error // why the work cannot be read; Path and Document are empty then
}

const (
	journalName   = "truemat journal"
	journalSuffix = ".journal"
)

type journalFile struct {
	Format   string          `json:"format"`
	Version  int             `json:"version"`
	Path     string          `json:"path"`
	Document json.RawMessage `json:"document"`
}

// JournalFolder returns the folder for journals: truemat in $XDG_STATE_HOME,
// or in .local/state of the home folder (XDG Base Directory Specification 0.8).
func JournalFolder() (string, error) {
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, "truemat"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder for unsaved work: %w; set XDG_STATE_HOME", err)
	}
	return filepath.Join(home, ".local", "state", "truemat"), nil
}

// journals counts the journals of this process, which may hold several documents.
var journals atomic.Int64

// NewJournal returns a journal in the folder dir, under a name that no other
// process and no other document of this one has. Nothing is written yet.
func NewJournal(dir string) *Journal {
	pid := os.Getpid()
	name := fmt.Sprintf("%d-%s-%d%s", pid, started(pid), journals.Add(1), journalSuffix)
	return &Journal{dir: dir, file: filepath.Join(dir, name)}
}

// File returns where the journal is written.
func (j *Journal) File() string { return j.file }

// Write puts the document, which was saved last at path ("" when nowhere), in
// place of what the journal held. After a crash at any moment the one or the
// other is there whole.
func (j *Journal) Write(d Document, path string) error {
	if err := os.MkdirAll(j.dir, 0o700); err != nil {
		return fmt.Errorf("unsaved work cannot be kept: %w; save it yourself now and then", plain(err))
	}
	if path != "" {
		if full, err := filepath.Abs(path); err == nil {
			path = full // the next start may be in another folder
		}
	}
	err := WriteFile(j.file, func(w io.Writer) error {
		var doc strings.Builder
		if err := Write(&doc, d); err != nil {
			return err
		}
		return json.NewEncoder(w).Encode(journalFile{journalName, Version, path, json.RawMessage(doc.String())})
	})
	if err != nil {
		return fmt.Errorf("unsaved work cannot be kept: %w; save it yourself now and then", err)
	}
	return nil
}

// Clear removes what the journal holds, when it is saved or given up.
func (j *Journal) Clear() error {
	if err := os.Remove(j.file); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s cannot be removed: %w", j.file, plain(err))
	}
	return nil
}

// Discard removes lost work, after it was taken up again or refused.
func (l Lost) Discard() error { return (&Journal{file: l.Journal}).Clear() }

// LostIn lists the work that processes which no longer run left in the folder
// dir, the newest first. Damaged journals are listed with their damage and
// left where they are. A folder that does not exist holds none.
func LostIn(dir string) ([]Lost, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("unsaved work cannot be looked for: %w", plain(err))
	}
	var all []Lost
	for _, e := range entries {
		pid, start, ok := journalOf(e.Name())
		if !ok || running(pid, start) {
			continue
		}
		file := filepath.Join(dir, e.Name())
		if strings.HasSuffix(e.Name(), ".tmp") {
			_ = os.Remove(file) // cut short while it was written; the whole one before it is still there
			continue
		}
		if l, ok := readJournal(file); ok {
			all = append(all, l)
		}
	}
	slices.SortStableFunc(all, func(a, b Lost) int { return b.When.Compare(a.When) })
	return all, nil
}

// readJournal reads a journal; false when another process removed it meanwhile.
func readJournal(file string) (Lost, bool) {
	l := Lost{Journal: file}
	f, err := os.Open(file)
	if err != nil {
		l.Damage = plain(err)
		return l, !errors.Is(err, os.ErrNotExist)
	}
	defer f.Close()
	if st, err := f.Stat(); err == nil {
		l.When = st.ModTime()
	}
	l.Path, l.Document, err = decodeJournal(f)
	if err != nil {
		l.Path, l.Document = "", Document{}
		l.Damage = fmt.Errorf("%s: the unsaved work kept here cannot be read: %w", file, err)
	}
	return l, true
}

func decodeJournal(r io.Reader) (string, Document, error) {
	b, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return "", Document{}, plain(err)
	}
	if len(b) > MaxSize {
		return "", Document{}, fmt.Errorf("it is over %d MB", MaxSize>>20)
	}
	var j journalFile
	if err := json.Unmarshal(b, &j); err != nil {
		return "", Document{}, located(b, err)
	}
	if j.Format != journalName {
		return "", Document{}, errors.New("it is no journal of Truemat")
	}
	d, err := Read(strings.NewReader(string(j.Document)))
	return j.Path, d, err
}

// journalOf returns the process that wrote a journal, or the temporary file of
// one, by its name.
func journalOf(name string) (pid int, start string, ok bool) {
	base, rest, found := strings.Cut(name, journalSuffix)
	if !found || rest != "" && !strings.HasSuffix(rest, ".tmp") {
		return 0, "", false
	}
	parts := strings.Split(base, "-")
	if len(parts) != 3 {
		return 0, "", false
	}
	pid, err := strconv.Atoi(parts[0])
	return pid, parts[1], err == nil && pid > 0
}

// running reports whether the process that began at start still runs; the
// start tells it from a later one to which the system gave the same number.
func running(pid int, start string) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if err := p.Signal(syscall.Signal(0)); err != nil && !errors.Is(err, syscall.EPERM) {
		return false
	}
	return started(pid) == start
}

// started returns when a process began, in clock ticks since the system did:
// field 22 of /proc/PID/stat, proc(5). Systems without it give "x" for all.
func started(pid int) string {
	b, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return "x"
	}
	// The name of the program, in brackets, may itself hold spaces and brackets.
	text := string(b)
	fields := strings.Fields(text[strings.LastIndexByte(text, ')')+1:])
	if len(fields) < 20 {
		return "x"
	}
	if fields[0] == "Z" {
		return "over" // killed, and not yet taken note of by its parent
	}
	return fields[19]
}
