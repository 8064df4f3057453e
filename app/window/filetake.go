package window

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"time"

	"truemat/ops/store"
)

// doublePress bounds the time between the two presses of a hand that presses
// twice; the second one of it chooses nothing in a folder that just opened.
const doublePress = 400 * time.Millisecond

// tap is a press on a row: a folder opens, a file is chosen and with the
// second press taken.
func (p *filePage) tap(i int) {
	if time.Since(p.came) < doublePress && p.turn > 1 {
		return
	}
	p.w.win.Canvas().Focus(p.name)
	if i == p.at || p.shown[i].folder {
		p.row(i)
		return
	}
	p.pick(i, p.at)
}

// row takes a row.
func (p *filePage) row(i int) {
	f := p.shown[i]
	switch path := filepath.Join(p.dir, f.name); {
	case f.folder:
		p.enter(path)
	case p.saving:
		p.write(path)
	default:
		p.use(path)
	}
}

// enough takes what is typed or chosen.
func (p *filePage) enough() {
	typed := strings.TrimSpace(p.name.Text)
	chosen := p.at >= 0 && p.at < len(p.shown)
	if p.saving {
		switch {
		case chosen && p.shown[p.at].folder:
			p.row(p.at)
		case typed == "":
			p.say(errors.New("the file needs a name; type one here"))
		default:
			p.write(whole(p.dir, typed))
		}
		return
	}
	path := whole(p.dir, typed)
	info, err := os.Stat(path)
	switch {
	case typed != "" && err == nil && info.IsDir():
		p.enter(path)
	case typed != "" && err == nil:
		p.use(path)
	case chosen:
		p.row(p.at)
	case typed == "":
		p.say(errors.New("no file is chosen; choose one from the list, or type a part of its name"))
	case strings.ContainsAny(typed, pathSigns):
		p.say(inWordsOf(err, path))
	default:
		p.say(fmt.Errorf("no file of this kind here has %q in its name; choose \"All files\" to see the others, or another folder", typed))
	}
}

// write takes a path to write to, once it is sure that this is wanted.
func (p *filePage) write(path string) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		p.enter(path)
		return
	}
	path = endingFor(path, p.kinds[p.kind].endings[0], p.endings())
	dir := filepath.Dir(path)
	switch info, err := os.Stat(dir); {
	case err != nil:
		p.w.askOver("Make the folder?", fmt.Sprintf("There is no folder %s yet.", dir), []string{"Make it", "Stay here"}, func(i int) {
			if i != 0 {
				return
			}
			if err := os.MkdirAll(dir, 0o755); err != nil {
				p.say(fmt.Errorf("the folder %q cannot be made (%w); choose another place", dir, err))
				return
			}
			p.write(path)
		})
		return
	case !info.IsDir():
		p.say(fmt.Errorf("%q is a file and can hold no other; choose a folder", dir))
		return
	}
	if info, err := os.Stat(path); err == nil {
		p.w.askOver("Write over it?", replaced(path, info),
			[]string{"Keep it", "Write over it"}, func(i int) {
				if i == 1 {
					p.use(path)
				}
			})
		return
	}
	p.use(path)
}

// replaced tells what is written over: when it was saved and what it holds, and
// that a document stays beside it under another name.
func replaced(path string, info os.FileInfo) string {
	name := filepath.Base(path)
	holds, stays := fmt.Sprintf("%.0f kB", math.Ceil(float64(info.Size())/1000)), ""
	if doc, err := store.Load(path); err == nil {
		holds = doc.Source.Name + " with " + counted(len(doc.Recipe), "step", "steps")
		stays = fmt.Sprintf(", and kept beside it as %s", name+store.Previous)
	}
	return fmt.Sprintf("%s is there already, in %s: saved %s, %s. What it holds now is replaced%s.",
		name, filepath.Dir(path), changedWords(info.ModTime(), time.Now()), holds, stays)
}

func (p *filePage) use(path string) {
	p.say(nil)
	p.w.set.SetString(prefFolder, filepath.Dir(path))
	p.take(path, func(err error) {
		if err == nil {
			p.sheet.close()
			return
		}
		if p.sheet.open() {
			p.say(err)
			return
		}
		p.w.complain(err) // the page was left meanwhile
	})
}
