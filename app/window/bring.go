package window

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"truemat/app/desk"
	"truemat/ops/intake"
	"truemat/ops/intake/svg"
	"truemat/ops/store"
	"truemat/ops/unit"
)

// bringFile asks for a drawing; left says that the document on the mat was left
// for it already.
func (w *Window) bringFile(left bool) {
	w.filePage(fileAsk{title: "Bring in a drawing", act: "Look at it", kinds: []fileKind{drawings, allFiles}, take: func(path string, told func(error)) {
		told(nil)
		w.bring(path, left)
	}})
}

// bringing is a drawing that is looked at before it is taken.
type bringing struct {
	w                           *Window
	path, companion             string
	left                        bool // what is on the mat was saved, or need not be
	allowance, knownID, knownMM string
	known                       *fyne.Container // asks for these; only where the drawing does not say its size
	outer                       intake.Drawn
	which                       *choice
	width                       *entry
	res                         brought
	ask                         *fyne.Container // which line was drawn outermost
	across                      float32
	words, good                 wording // what is said, and with what something was found
	row                         *foundRow
	board                       *foundBoard
	found, shown, says          *fyne.Container
	take, join                  *touch
	sheet                       *sheet
	turn                        int                // of the look whose outcome is shown
	stop                        context.CancelFunc // ends the look that is under way
}

// foundWide is the width of the list of what was found.
const foundWide = 380

// bring shows what is found in a drawing; a text file of the same name beside
// it is taken as its companion.
func (w *Window) bring(path string, left bool) *bringing {
	b := &bringing{w: w, path: path, left: left, ask: container.New(stack{gap: 4}), found: container.New(stack{gap: 4}), shown: container.New(stack{}), says: container.New(stack{})}
	room := b.room()
	if c := strings.TrimSuffix(path, filepath.Ext(path)) + ".txt"; exists(c) {
		b.companion = c
	}
	field := func(at *string) *entry {
		return newEntry(*at, 110, func(s string, changed bool) {
			if changed {
				*at = s
				b.look()
			}
		}, w.backOut)
	}
	label := func(s string) fyne.CanvasObject { return text(s, normal, false, w.palette.Text) }
	b.width = w.counting(field(&b.allowance))
	b.which = b.newOuter()
	b.across = foundWide + scrollBar + 16 + room.Width
	b.known = container.New(line{gap: 8}, label("The drawing does not say how large it is: the line called"), field(&b.knownID), label("is"), w.counting(field(&b.knownMM)), label("long"))
	b.known.Hide()
	asks := container.New(stack{gap: 8},
		container.New(line{gap: 8}, label("The outer line of a piece is"), b.which, label("and its allowance is"), b.width),
		b.ask,
		b.known)
	b.take = w.button("Take it as a new document", left, b.accept)
	b.join = w.button("Lay it beside what is on the mat", !left, b.add)
	acts := container.New(line{gap: 8, wrap: b.across}, b.take, b.join,
		w.button("Read its words from a text file…", false, func() {
			w.filePage(fileAsk{title: "A text that says what the lines mean", act: "Read it", kinds: []fileKind{{"Texts (.txt)", []string{".txt"}}, allFiles}, take: func(p string, told func(error)) {
				told(nil)
				b.companion = p
				b.look()
			}})
		}),
		w.button("Leave it", false, w.backOut))
	scroll := container.NewVScroll(b.found)
	area := container.New(roomy{func() fyne.Size { return b.room() }}, b.shown)
	b.row = b.newRow()
	row := container.New(roomy{func() fyne.Size { return fyne.NewSize(b.room().Width, b.row.tall) }}, b.row.all)
	hints := container.New(roomy{func() fyne.Size { return fyne.NewSize(b.room().Width, b.hintRoom()) }}, b.says)
	list := container.New(roomy{func() fyne.Size {
		return fyne.NewSize(foundWide+scrollBar, b.room().Height+b.row.tall+b.hintRoom()+8)
	}}, scroll)
	about := para("A text file may say what the lines mean: names of pieces and edges, roles, seams, sizes. One of the drawing's name that lies beside it is read by itself. Its lines read so: \"piece front\", \"joint near 40 62\", \"edge hem near 50% 100% role hem allow 12mm\".", b.across, small, false, w.palette.Faint)
	b.sheet = w.openSheet("Bring in "+filepath.Base(path), b.across, asks, container.New(line{gap: 16}, list, container.New(stack{gap: 4}, area, row, hints)), acts, about)
	b.sheet.room = func() {
		if b.res.Run.Sizes != nil {
			b.layFound()
		}
	}
	b.sheet.shut = func() { b.stop() }
	b.look()
	return b
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
	b.join.able(false)
	b.found.RemoveAll()
	b.tell("Looking through the drawing …", false)
	opt := intake.Options{Divisions: b.words.divisions, Said: b.words.said, Names: b.words.names, Name: strings.TrimSuffix(filepath.Base(b.path), filepath.Ext(b.path))}
	var err error
	opt.WidthAlone = true
	if opt.Drawn = b.outer; b.allowance != "" {
		opt.Allowance, err = b.w.read(b.allowance)
	}
	if err == nil && b.knownID != "" && b.knownMM != "" {
		opt.Size.Known.Name = b.knownID
		opt.Size.Known.MM, err = b.w.read(b.knownMM)
	}
	if err != nil {
		b.done(brought{}, err)
		return
	}
	path, companion := b.path, b.companion
	var res brought
	b.w.away(func() { res, err = readBoth(ctx, path, companion, opt) }, func() {
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

func (b *bringing) done(res brought, err error) {
	if !b.sheet.open() {
		return
	}
	b.found.RemoveAll()
	if errors.Is(err, svg.ErrNoSize) && !b.known.Visible() { // stays, once it was asked
		b.known.Show()
		b.sheet.fit()
	}
	if err != nil && b.words.changes != b.good.changes { // what cannot be is not said
		err = b.stays(err)
		b.words = b.good
		b.found.Add(para(sentence(err), foundWide, normal, true, b.w.palette.Poor))
		res, err = b.res, nil
	}
	b.take.able(err == nil)
	b.join.able(err == nil)
	if err == nil {
		b.res, b.good = res, b.words
		b.tellOuter()
		b.layFound()
		b.describe()
	} else { // what was seen last stays
		b.found.Add(para(sentence(err), foundWide, normal, true, b.w.palette.Poor))
	}
	b.found.Refresh()
}

func (b *bringing) tell(s string, bold bool) {
	b.found.Add(para(s, foundWide, normal, bold, b.w.palette.Text))
}

func (b *bringing) describe() {
	u := b.w.unit
	run := b.res.Run
	b.tell(run.Name+": "+counted(len(run.Sizes[0].Pattern.Pieces), "piece", "pieces")+inSizes(run.Labels()), true)
	if b.companion != "" {
		b.tell("Read with "+filepath.Base(b.companion)+".", false)
	}
	b.tell(b.taken(), false)
	b.offerCut()
	b.offerAsFound()
	first := run.Sizes[0]
	for _, p := range b.res.Pieces {
		if p.Size != first.Label {
			continue
		}
		s := fmt.Sprintf("%s: %s", p.Piece, has(p))
		if pc := first.Pattern.Piece(p.Piece); pc != nil {
			if o, err := pc.Outline(); err == nil {
				box := o.Bounds()
				s = fmt.Sprintf("%s: %s, %s, %s", p.Piece, unit.Restate(unit.MM(box.Width())+" × "+unit.MM(box.Height()), u), counted(len(pc.Edges), "corner", "corners"), has(p))
			}
			var roles []string
			at := slices.IndexFunc(b.board.pieces, func(f foundPiece) bool { return f.Name == p.Piece })
			for k := range pc.Edges {
				roles = append(roles, b.board.label(foundEdge{at, k}))
			}
			s += ", " + arrowFound(pc.Arrow, p.Arrow) + "; " + strings.Join(roles, ", ")
		}
		if p.Gap > 0 {
			s += "; a gap of " + unit.Tell(p.Gap, u) + " was closed"
		}
		s += b.farOff(p)
		b.tell(s+".", false)
	}
	_, told := b.beside()
	for _, s := range told {
		b.tell(s, false)
	}
	for _, n := range b.res.Notes {
		b.tell(unit.Restate(sentence(errors.New(n)), u), false)
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
	take := func() {
		for b.sheet.open() {
			b.w.sheet.close()
		}
		b.w.prompt.say(nil)
		d.Treasure()
		b.w.replace(d)
	}
	if b.left {
		take()
		return
	}
	b.w.leaveOver(take)
}
