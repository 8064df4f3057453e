package store

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Previous is appended to a document's name for the good version before it.
const Previous = ".previous"

// Load reads the document at path.
func Load(path string) (Document, error) { return LoadContext(context.Background(), path) }

// LoadContext is Load that gives up once the context is done, with its error.
func LoadContext(ctx context.Context, path string) (Document, error) {
	f, err := os.Open(path)
	if err != nil {
		return Document{}, plain(err)
	}
	defer f.Close()
	d, err := readContext(ctx, f)
	switch {
	case ctx.Err() != nil:
		return Document{}, ctx.Err()
	case err != nil:
		err = fmt.Errorf("%s: %w", path, plain(err))
		if _, e := os.Stat(path + Previous); e == nil {
			err = fmt.Errorf("%w; the version before it is kept as %s", err, path+Previous)
		}
	}
	return d, err
}

// Save writes the document to path so that at every moment either the old or
// the new version is there whole. A good document that was there before is
// kept under the name with [Previous] appended. A file that never was a
// document, such as the drawing the pattern came from, is not written over.
func Save(path string, d Document) error {
	if err := d.Validate(); err != nil {
		return err
	}
	if foreign(path) {
		return fmt.Errorf("%s holds something that is not a pattern and is left as it was; choose another name", path)
	}
	return replaceFile(path, func(w io.Writer) error { return Write(w, d) }, keepPrevious)
}

// foreign reports whether a file that is no document, not even a damaged one,
// is at path. A document names its format in its first line but one.
func foreign(path string) bool {
	if st, err := os.Stat(path); err != nil || !st.Mode().IsRegular() || st.Size() == 0 {
		return false // opening a pipe would wait for a writer
	}
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	head, _ := io.ReadAll(io.LimitReader(f, 200))
	return !bytes.Contains(head, []byte(formatName))
}

// WriteFile writes any output to path in the same safe manner, without
// keeping what was there before.
func WriteFile(path string, write func(io.Writer) error) error {
	return replaceFile(path, write, func(string) error { return nil })
}

// replaceFile writes to a temporary file beside path, syncs it, lets keep see
// the old file, renames the new one into place and syncs the folder.
func replaceFile(path string, write func(io.Writer) error, keep func(path string) error) (err error) {
	if real, e := filepath.EvalSymlinks(path); e == nil {
		path = real
	}
	mode := fs.FileMode(0o666) // less the umask
	if st, e := os.Stat(path); e == nil {
		if !st.Mode().IsRegular() {
			return fmt.Errorf("%s is not an ordinary file; choose another name", path)
		}
		mode = st.Mode().Perm()
	}
	temp := fmt.Sprintf("%s.%d.tmp", path, os.Getpid())
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, mode)
	if err != nil {
		return plain(err)
	}
	renamed := false
	defer func() {
		switch {
		case err != nil && renamed:
			err = fmt.Errorf("%s was written, but the disk did not confirm it; save it once more: %w", path, err)
		case err != nil:
			f.Close()
			os.Remove(temp)
			err = fmt.Errorf("%s was not written and is as it was: %w", path, plain(err))
		}
	}()
	w := bufio.NewWriter(f)
	if err = write(w); err != nil {
		return err
	}
	if err = w.Flush(); err != nil {
		return err
	}
	if err = f.Sync(); err != nil {
		return err
	}
	if err = f.Close(); err != nil {
		return err
	}
	if err = keep(path); err != nil {
		return err
	}
	if err = os.Rename(temp, path); err != nil {
		return err
	}
	renamed = true
	return syncFolder(filepath.Dir(path))
}

// keepPrevious keeps the file at path under its previous name, unless it is
// missing or damaged: the last good version is not given up for a bad one.
func keepPrevious(path string) error {
	old, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if _, err := Load(path); err != nil {
		return nil
	}
	return WriteFile(path+Previous, func(w io.Writer) error {
		_, err := w.Write(old)
		return err
	})
}

func syncFolder(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// plain turns the operating system's commonest answers into sentences.
func plain(err error) error {
	var pe *fs.PathError
	if !errors.As(err, &pe) {
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist) && pe.Op == "open":
		return fmt.Errorf("there is no file or folder %s", pe.Path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s may not be used: permission denied", pe.Path)
	}
	return err
}
