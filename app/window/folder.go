package window

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"
)

// found is what lies in a folder.
type found struct {
	name    string
	folder  bool
	changed time.Time
}

// pathSigns tell a path from a part of a name.
const pathSigns = `/\~`

// above is the name of the row that leads to the folder above.
const above = ".."

// readFolder lists a folder: the way up, folders, then files, each by name.
func readFolder(dir string) ([]found, error) {
	all, err := os.ReadDir(dir)
	if err != nil {
		return nil, inWordsOf(err, dir)
	}
	var out []found
	if filepath.Dir(dir) != dir {
		out = append(out, found{name: above, folder: true})
	}
	for _, e := range all {
		info, err := os.Stat(filepath.Join(dir, e.Name())) // follows links
		if err != nil {
			continue // a link that leads nowhere
		}
		out = append(out, found{e.Name(), info.IsDir(), info.ModTime()})
	}
	slices.SortStableFunc(out, func(a, b found) int {
		rank := func(f found) int {
			switch {
			case f.name == above:
				return 0
			case f.folder:
				return 1
			}
			return 2
		}
		if d := rank(a) - rank(b); d != 0 {
			return d
		}
		return byName(strings.ToLower(a.name), strings.ToLower(b.name))
	})
	return out, nil
}

// byName compares names as people count: 2 comes before 10.
func byName(a, b string) int {
	for a != "" && b != "" {
		x, y := digits(a), digits(b)
		if x == 0 || y == 0 {
			if a[0] != b[0] {
				return int(a[0]) - int(b[0])
			}
			a, b = a[1:], b[1:]
			continue
		}
		m, n := strings.TrimLeft(a[:x], "0"), strings.TrimLeft(b[:y], "0")
		if len(m) != len(n) {
			return len(m) - len(n)
		}
		if m != n {
			return strings.Compare(m, n)
		}
		a, b = a[x:], b[y:]
	}
	return len(a) - len(b)
}

func digits(s string) int { return len(s) - len(strings.TrimLeft(s, "0123456789")) }

// inWordsOf tells why a path cannot be used, and what can be done.
func inWordsOf(err error, path string) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no %q; choose another place or look at its spelling", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%q may not be read by you; choose another place or ask its owner", path)
	}
	return fmt.Errorf("%q cannot be read (%w); choose another place", path, err)
}

// sieve keeps the folders, and the files with one of the endings; of all of
// these, those with the words in their name. Hidden ones show only when what
// is typed begins with a dot.
func sieve(all []found, endings []string, typed string) []found {
	typed = strings.ToLower(strings.TrimSpace(typed))
	if strings.ContainsAny(typed, pathSigns) {
		typed = ""
	}
	var out []found
	for _, f := range all {
		name := strings.ToLower(f.name)
		switch {
		case f.name == above && typed == "":
		case f.name == above:
			continue
		case strings.HasPrefix(name, ".") && !strings.HasPrefix(typed, "."):
			continue
		case !f.folder && len(endings) > 0 && !slices.Contains(endings, strings.ToLower(filepath.Ext(name))):
			continue
		case !strings.Contains(name, typed):
			continue
		}
		out = append(out, f)
	}
	return out
}

// whole makes a path of what was typed in a folder.
func whole(dir, typed string) string {
	typed = strings.TrimSpace(typed)
	if home, err := os.UserHomeDir(); err == nil && (typed == "~" || strings.HasPrefix(typed, "~/")) {
		return filepath.Join(home, typed[1:])
	}
	if filepath.IsAbs(typed) {
		return filepath.Clean(typed)
	}
	return filepath.Join(dir, typed)
}

// endingFor adds an ending to a path that has none of those that could be meant.
func endingFor(path, usual string, known []string) string {
	if slices.Contains(known, strings.ToLower(filepath.Ext(path))) {
		return path
	}
	return path + usual
}

// spot is a folder that is offered by a word.
type spot struct{ word, path string }

// usualPlaces are the folders that people keep their things in, as far as
// they are there.
func usualPlaces() []spot {
	var out []spot
	if home, err := os.UserHomeDir(); err == nil {
		out = append(out, spot{"Home", home})
		for _, name := range []string{"Documents", "Desktop", "Downloads"} {
			out = append(out, spot{name, filepath.Join(home, name)})
		}
	}
	if runtime.GOOS == "windows" {
		for _, drive := range "CDEFGH" {
			out = append(out, spot{"Disk " + string(drive), string(drive) + `:\`})
		}
	} else {
		out = append(out, spot{"Whole disk", "/"}, spot{"Other disks", "/media"}, spot{"Other disks", "/Volumes"})
	}
	return slices.DeleteFunc(out, func(s spot) bool {
		info, err := os.Stat(s.path)
		return err != nil || !info.IsDir()
	})
}

// changedWords tells when something was changed, shortly.
func changedWords(at, now time.Time) string {
	switch {
	case at.IsZero():
		return ""
	case at.Year() == now.Year() && at.YearDay() == now.YearDay():
		return "today " + at.Format("15:04")
	case at.Year() == now.Year():
		return at.Format("2 Jan 15:04")
	}
	return at.Format("2 Jan 2006")
}
