package window

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/ops/intake"
	"truemat/ops/store"
	"truemat/ops/unit"
)

func (w *Window) bringAsk() {
	w.leave(func() {
		w.filePage(fileAsk{title: "Bring in a drawing", act: "Look at it", kinds: []fileKind{drawings, allFiles}, take: func(path string, told func(error)) {
			told(nil)
			w.bring(path)
		}})
	})
}

// bringing is a drawing that is looked at before it is taken.
type bringing struct {
	w                           *Window
	path, companion             string
	allowance, knownID, knownMM string
	res                         intake.Result
	found                       *fyne.Container
	take                        *touch
	sheet                       *sheet
	turn                        int                // of the look whose outcome is shown
	stop                        context.CancelFunc // ends the look that is under way
}

// bring shows what is found in a drawing; a text file of the same name beside
// it is taken as its companion.
func (w *Window) bring(path string) {
	b := &bringing{w: w, path: path, found: container.New(stack{gap: 4})}
	if c := strings.TrimSuffix(path, filepath.Ext(path)) + ".txt"; exists(c) {
		b.companion = c
	}
	field := func(at *string) *entry {
		return newEntry(*at, 120, func(s string, changed bool) {
			if changed {
				*at = s
				b.look()
			}
		}, w.backOut)
	}
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Faint) }
	asks := container.New(line{gap: 8}, label("Drawn with an allowance of"), field(&b.allowance), label("Shape"), field(&b.knownID), label("is long"), field(&b.knownMM))
	b.take = w.button("Take it", true, b.accept)
	acts := container.New(line{gap: 8}, b.take,
		w.button("Companion…", false, func() {
			w.filePage(fileAsk{title: "The drawing's companion", act: "Read it", kinds: []fileKind{{"Texts (.txt)", []string{".txt"}}, allFiles}, take: func(p string, told func(error)) {
				told(nil)
				b.companion = p
				b.look()
			}})
		}),
		w.button("Leave it", false, w.backOut))
	scroll := container.NewVScroll(b.found)
	scroll.SetMinSize(fyne.NewSize(700, 340))
	b.sheet = w.openSheet("Bring in "+filepath.Base(path), 720, asks, scroll, acts)
	b.sheet.shut = func() { b.stop() }
	b.look()
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// look reads the drawing and tells what is in it.
func (b *bringing) look() {
	if b.stop != nil {
		b.stop()
	}
	var ctx context.Context
	ctx, b.stop = context.WithCancel(context.Background())
	b.turn++
	turn := b.turn
	b.take.able(false)
	b.found.RemoveAll()
	b.tell("Looking through the drawing …", false)
	opt := intake.Options{Name: strings.TrimSuffix(filepath.Base(b.path), filepath.Ext(b.path))}
	var err error
	if b.allowance != "" {
		opt.Allowance, err = b.w.read(b.allowance)
	}
	if err == nil && b.knownID != "" && b.knownMM != "" {
		opt.Size.Known.Name = b.knownID
		opt.Size.Known.MM, err = b.w.read(b.knownMM)
	}
	if err != nil {
		b.done(intake.Result{}, err)
		return
	}
	path, companion := b.path, b.companion
	var res intake.Result
	b.w.away(func() { res, err = read(ctx, path, companion, opt) }, func() {
		if turn == b.turn {
			b.done(res, err)
		}
	})
}

func read(ctx context.Context, path, companion string, opt intake.Options) (intake.Result, error) {
	drawing, err := os.Open(path)
	if err != nil {
		return intake.Result{}, err
	}
	defer drawing.Close()
	var c *intake.Companion
	if companion != "" {
		f, err := os.Open(companion)
		if err != nil {
			return intake.Result{}, err
		}
		defer f.Close()
		if c, err = intake.ReadCompanion(f); err != nil {
			return intake.Result{}, fmt.Errorf("%s: %w", filepath.Base(companion), err)
		}
	}
	return intake.BringContext(ctx, store.Heeding(ctx, drawing), c, opt)
}

func (b *bringing) done(res intake.Result, err error) {
	if !b.sheet.open() {
		return
	}
	b.found.RemoveAll()
	b.res = res
	b.take.able(err == nil)
	if err == nil {
		b.describe()
	}
	b.sheet.say(err)
	b.found.Refresh()
}

func (b *bringing) tell(s string, bold bool) {
	b.found.Add(para(s, 680, normal, bold, b.w.palette.Text))
}

func (b *bringing) describe() {
	u := b.w.unit
	run := b.res.Run
	b.tell(run.Name+": "+counted(len(run.Sizes[0].Pattern.Pieces), "piece", "pieces")+inSizes(run.Labels()), true)
	if b.companion != "" {
		b.tell("Read with "+filepath.Base(b.companion)+".", false)
	}
	first := run.Sizes[0]
	for _, p := range b.res.Pieces {
		if p.Size != first.Label {
			continue
		}
		s := fmt.Sprintf("%s: %s", p.Piece, has(p))
		if pc := first.Pattern.Piece(p.Piece); pc != nil {
			if o, err := pc.Outline(); err == nil {
				box := o.Bounds()
				s = fmt.Sprintf("%s: %s × %s, %s, %s", p.Piece, unit.Format(box.Width(), u), unit.Format(box.Height(), u), counted(len(pc.Edges), "corner", "corners"), has(p))
			}
			var roles []string
			for _, e := range pc.Edges {
				role := e.Name
				if role != string(e.Role) {
					role += " (" + e.Role.Word() + ")"
				}
				roles = append(roles, role)
			}
			s += "; " + strings.Join(roles, ", ")
		}
		if p.Gap > 0 {
			s += "; a gap of " + unit.Format(p.Gap, u) + " was closed"
		}
		switch {
		case p.Drawn && p.CutError < 0.0005:
			s += "; the drawn cut line is the computed one"
		case p.Drawn:
			s += fmt.Sprintf("; drawn and computed cut line differ by at most %.3f mm", p.CutError)
		}
		b.tell(s+".", false)
	}
	for _, n := range b.res.Notes {
		b.tell(n, false)
	}
	for _, l := range b.res.LeftOut {
		b.tell(fmt.Sprintf("Left out: %s", l), false)
	}
}

// inSizes names the sizes, unless there is only one that has no name.
func inSizes(labels []string) string {
	if len(labels) == 1 && labels[0] == intake.OneSize {
		return ""
	}
	return " in " + counted(len(labels), "size", "sizes") + " (" + strings.Join(labels, ", ") + ")"
}

// has tells what a piece carries within its outline.
func has(p intake.Brought) string {
	s := counted(p.Notches, "notch", "notches")
	if p.Inner > 0 {
		s += ", " + counted(p.Inner, "inner line", "inner lines")
	}
	return s
}

func counted(n int, one, more string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, more)
}

func (b *bringing) accept() {
	d, err := desk.New(store.Document{Source: b.res.Run}, "")
	if err != nil {
		b.sheet.say(err)
		return
	}
	b.sheet.close()
	b.w.prompt.say(nil)
	d.Treasure()
	b.w.replace(d)
}
