package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"truemat/ops/cloth"
)

// libraryFormat names the format of the file of a library.
const libraryFormat = "truemat cloths"

type libraryFile struct {
	Format  string        `json:"format"`
	Version int           `json:"version"`
	Cloths  []cloth.Cloth `json:"cloths"`
}

// LibraryPath returns where the maker's own cloths are kept beyond one
// document: truemat/cloths.json in the folder for configuration
// ($XDG_CONFIG_HOME, or .config of the home folder; see [os.UserConfigDir]).
func LibraryPath() (string, error) {
	dir, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("there is no folder for your library of cloths: %w", err)
	}
	return filepath.Join(dir, "truemat", "cloths.json"), nil
}

// Damaged is why a file that should be a library cannot be read as one.
type Damaged struct {
	Path string
	Err  error
}

func (d Damaged) Error() string {
	return fmt.Sprintf("your library of cloths cannot be read (%s: %v); it stays as it is, and the next cloth you keep puts it aside and begins another", d.Path, d.Err)
}

func (d Damaged) Unwrap() error { return d.Err }

// ReadLibrary returns the cloths of a library, none when there is no file yet.
// A file that is no library gives [Damaged] and is left as it is.
func ReadLibrary(path string) ([]cloth.Cloth, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, plain(err)
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, MaxSize+1))
	if err != nil {
		return nil, plain(err)
	}
	if len(b) > MaxSize {
		return nil, Damaged{path, fmt.Errorf("the file is over %d MB", MaxSize>>20)}
	}
	var l libraryFile
	if err := json.Unmarshal(b, &l); err != nil {
		return nil, Damaged{path, located(b, err)}
	}
	switch {
	case l.Format != libraryFormat:
		return nil, Damaged{path, fmt.Errorf("its \"format\" is not %q", libraryFormat)}
	case l.Version > Version:
		return nil, fmt.Errorf("%s was saved by a newer Truemat (version %d of the format, this program reads %d); use that", path, l.Version, Version)
	}
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&l); err != nil {
		return nil, Damaged{path, located(b, err)}
	}
	if err := (cloth.Goods{Cloths: l.Cloths}).Validate(); err != nil {
		return nil, Damaged{path, err}
	}
	return l.Cloths, nil
}

// KeepCloth puts a cloth of the goods into a library, with those it is made
// of; one that is there by the same name gives way. A damaged library is not
// lost: it is put aside under another name, which is returned.
func KeepCloth(path string, g cloth.Goods, name string) (aside string, err error) {
	wanted, err := cloth.With(g.Cloths, name)
	if err != nil {
		return "", err
	}
	all, err := ReadLibrary(path)
	var damaged Damaged
	switch {
	case errors.As(err, &damaged):
		if aside, err = putAside(path); err != nil {
			return "", err
		}
	case err != nil:
		return "", err
	}
	for _, c := range wanted {
		if i := slices.IndexFunc(all, func(x cloth.Cloth) bool { return x.Name == c.Name }); i >= 0 {
			all[i] = c
		} else {
			all = append(all, c)
		}
	}
	return aside, writeLibrary(path, all)
}

// DropCloth takes a cloth out of a library.
func DropCloth(path, name string) error {
	all, err := ReadLibrary(path)
	if err != nil {
		return err
	}
	g, err := cloth.Goods{Cloths: all}.WithoutCloth(name)
	if err != nil {
		return fmt.Errorf("your library of cloths: %w", err)
	}
	return writeLibrary(path, g.Cloths)
}

func writeLibrary(path string, all []cloth.Cloth) error {
	if err := (cloth.Goods{Cloths: all}).Validate(); err != nil {
		return fmt.Errorf("your library of cloths: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return plain(err)
	}
	b, err := json.MarshalIndent(libraryFile{libraryFormat, Version, all}, "", " ")
	if err != nil {
		return err
	}
	return WriteFile(path, func(w io.Writer) error {
		_, err := w.Write(append(b, '\n'))
		return err
	})
}

// putAside gives a file a name that none has and returns it.
func putAside(path string) (string, error) {
	for i := 1; ; i++ {
		aside := fmt.Sprintf("%s.damaged-%d", path, i)
		if _, err := os.Lstat(aside); errors.Is(err, fs.ErrNotExist) {
			return aside, os.Rename(path, aside)
		}
	}
}
