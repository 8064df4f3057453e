package window

import (
	"errors"
	"fmt"
	"image/color"
	"io"
	"math"
	"path/filepath"
	"reflect"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"truemat/app/plan"
	"truemat/ops/cloth"
	"truemat/ops/cloth/border"
	"truemat/ops/cloth/cutting"
	"truemat/ops/pattern"
	"truemat/ops/unit"
	"truemat/render"
	"truemat/render/handout"
)

// clothPlans is the plan of a lace or a plain cloth while it is looked at. It
// stays with the window, so that the piece that is chosen stays chosen.
type clothPlans struct {
	w     *Window
	of    string // the cloth
	least leastPlan

	board  *clothBoard
	serial int
	on     *clothPage // where it shows
	view   *fyne.Container
	said   *canvas.Text
	told   *fyne.Container
	wishes *fyne.Container
	acts   *fyne.Container
	shown  int     // the piece whose wishes show
	hand   [2]bool // whether it, and any piece, lay by hand when they were shown
	wrong  error
	wide   float32
}

// leastPlan is the length of a plan with nothing laid by hand, and what it was
// worked out for.
type leastPlan struct {
	cloth   cloth.Cloth
	on      cloth.OnLace
	laid    cloth.Laid
	made    []cloth.Made
	pattern pattern.Pattern
	mm      float64
	sure    bool // none is shorter
	lacks   string
}

const (
	planRows  = 164 // height of what stands around a plan
	planField = 84
)

// clothPartPlans shows how the pieces lie on the laces and cloths, to be moved
// by hand.
func (w *Window) clothPartPlans() fyne.CanvasObject {
	g := w.desk.Goods()
	if w.plans == nil {
		w.plans = &clothPlans{w: w}
	}
	p := w.plans
	if p.on != w.cloths { // the page was left meanwhile
		p.on, p.board = w.cloths, nil
	}
	p.wide = w.cloths.wide - 20
	var cut []cloth.Cloth
	for _, c := range g.Cloths {
		if len(c.Of) == 0 && slices.ContainsFunc(g.Made, func(m cloth.Made) bool { return g.Cuts(m.Piece, c.Name) }) {
			cut = append(cut, c)
		}
	}
	if len(cut) == 0 {
		p.board = nil
		return para("A plan is made of each cloth once it is said under Layers which pieces are cut from it.", p.wide, normal, false, w.palette.Text)
	}
	at := slices.IndexFunc(cut, func(c cloth.Cloth) bool { return c.Name == p.of })
	if at < 0 {
		at = max(slices.IndexFunc(cut, func(c cloth.Cloth) bool { return c.Lace != nil }), 0)
		p.of = cut[at].Name
	}
	names := container.New(line{gap: 4, wrap: p.wide})
	for _, c := range cut {
		t := w.column.option(c.Name, c.Name == p.of, func() {
			p.of, p.board = c.Name, nil
			w.cloths.again()
		})
		t.name = "plan of " + c.Name
		names.Add(t)
	}
	c := cut[at]
	p.said = text("", large, true, w.palette.Text)
	p.told, p.wishes, p.acts = container.New(stack{}), container.New(stack{}), container.New(stack{})
	p.shown = -2
	if p.view == nil || p.board == nil || p.board.cloth.Name != c.Name || p.board.w != w {
		p.view, p.board = container.New(layered{}), nil
	}
	room := fyne.NewSize(p.wide, max(w.cloths.tall-planRows-names.MinSize().Height, 240))
	p.lay(c, room)
	return container.New(stack{gap: 8}, names, p.said, p.view, p.told, p.wishes, p.acts)
}

// lay works the plan out, away from the window's own thread, and shows it.
func (p *clothPlans) lay(c cloth.Cloth, room fyne.Size) {
	w := p.w
	p.serial++
	serial := p.serial
	g, pat, size, known := w.desk.Goods(), w.desk.Pattern(), w.desk.Size(), p.least
	var b *plan.Board
	var least leastPlan
	var err error
	if p.board == nil {
		blank := canvas.NewRectangle(color.Transparent)
		blank.SetMinSize(room)
		p.view.Objects = []fyne.CanvasObject{blank}
		change(p.said, "Laying the pieces \u2026")
	} else {
		p.tell()
	}
	w.away(func() { b, least, err = boardOf(c, g, pat, size, known) }, func() {
		if serial != p.serial {
			return
		}
		if p.wrong = err; err != nil {
			p.board = nil
			change(p.said, "")
			p.view.Objects = nil
			p.view.Refresh()
			p.told.Objects = []fyne.CanvasObject{para(sentence(err), p.wide, normal, false, w.palette.Poor)}
			p.acts.Objects = []fyne.CanvasObject{container.New(line{}, p.anew(c))}
			p.acts.Refresh()
			return
		}
		p.least = least
		if p.board == nil || p.board.room != room {
			p.board = w.newClothBoard(c, pat, b, room)
			p.board.told, p.board.done = p.tell, p.done
			p.view.Objects = []fyne.CanvasObject{p.board}
		} else {
			b.ChooseAgain(p.board.board)
			p.board.cloth, p.board.pattern = c, pat
			p.board.put(b)
		}
		p.view.Refresh()
		p.tell()
	})
}

// boardOf lays the pieces out as the goods say, and finds the least length when
// that is not known yet.
func boardOf(c cloth.Cloth, g cloth.Goods, p pattern.Pattern, size string, known leastPlan) (*plan.Board, leastPlan, error) {
	now := leastPlan{cloth: c, on: g.OnLaceOf(c.Name, p), laid: g.LaidOn(c.Name), made: g.Made, pattern: p, mm: known.mm, sure: known.sure, lacks: known.lacks}
	now.on.Places, now.laid.Pins = nil, nil
	fresh := !reflect.DeepEqual(now, known)
	if c.Lace != nil {
		if fresh {
			free, err := border.Of(g.WithPlaces(c.Name, size, nil), c, p, size)
			if err != nil {
				return nil, known, err
			}
			now.mm, now.sure, now.lacks = free.Length, free.Least, free.Lacks()
		}
		l, err := border.Of(g, c, p, size)
		if err != nil { // the pieces show as they were laid, and what is wrong with that
			l, err = border.AsLaid(g, c, p, size)
		}
		return plan.OnLace(l, now.mm), now, err
	}
	if fresh {
		free, err := cutting.Of(g.WithPins(c.Name, size, nil), c, p, size)
		if err != nil {
			return nil, known, err
		}
		now.mm, now.sure, now.lacks = free.Length, false, ""
	}
	l, err := cutting.Of(g, c, p, size)
	if err != nil {
		l, err = cutting.AsLaid(g, c, p, size)
	}
	return plan.OnCloth(l, now.mm), now, err
}

// tell says what lies on the board now: the length, and the piece in the hand.
func (p *clothPlans) tell() {
	w, b := p.w, p.board.board
	length, more := b.Length(), b.Length()-b.Least()
	shortest := "the shortest that was found"
	if p.least.sure {
		shortest = "the shortest possible"
	}
	how := shortest
	switch {
	case more > 0.5:
		how = w.roughly(more) + " more than " + shortest
	case b.ByHand():
		how = "as laid by hand no more than " + shortest
	case more < -0.5:
		how = w.roughly(-more) + " less than what was found without your hand"
	}
	change(p.said, shortened(fmt.Sprintf("Buy %s: %s, %s, the rest to spare", cloth.Buy(length), w.roughly(length), how), p.wide*0.94, large)) // it is bold
	told, ink := b.Tell(w.unit), w.palette.Text
	if told == "" {
		told, ink = "Drag a piece; it snaps to places of the motif and its partner follows. By keys: N and P choose, arrows move, Space turns half round, Enter keeps.", w.palette.Faint
		if p.board.cloth.Lace == nil {
			told = "Drag a piece to pin it there; press it twice to turn it half round. By keys: N and P choose, arrows move (Shift far, Ctrl fine), Space turns, Enter keeps."
		}
	}
	if p.least.lacks != "" && b.Chosen() < 0 {
		told, ink = sentence(errors.New(p.least.lacks)), w.palette.Poor
	}
	if err := b.Wrong(); err != nil {
		told, ink = sentence(err), w.palette.Poor
	} else if p.wrong != nil {
		told, ink = sentence(p.wrong), w.palette.Poor
	}
	p.told.Objects = []fyne.CanvasObject{para(shortened(told, 2*p.wide-80, normal), p.wide, normal, false, ink)}
	p.told.Refresh()
	p.fields()
}

// roughly writes a length of cloth, to the millimetre or sixteenth of an inch.
func (w *Window) roughly(mm float64) string {
	if w.unit == unit.InchFractions {
		return unit.Inches(mm, unit.Sixteenths)
	}
	return unit.Format(math.Round(mm), w.unit)
}

// done keeps what was laid by hand, as one change, or says why it was not.
func (p *clothPlans) done(err error) {
	w := p.w
	if err == nil {
		err = w.desk.SetGoods(p.board.board.Goods(w.desk.Goods(), w.desk.Size()))
	}
	if err != nil {
		p.wrong = err
		p.tell()
		p.wrong = nil // until the next act
		return
	}
	w.refresh()
}

// set keeps other goods, as one change, unless the pieces could not be laid so.
func (p *clothPlans) set(g cloth.Goods) {
	w := p.w
	err := g.Validate()
	if c, ok := g.Cloth(p.of); ok && err == nil {
		if c.Lace != nil {
			err = border.Fits(g, c, w.desk.Pattern(), w.desk.Size())
		} else {
			_, err = cutting.Of(g, c, w.desk.Pattern(), w.desk.Size())
		}
	}
	if err == nil {
		err = w.desk.SetGoods(g)
	}
	switch {
	case err == nil:
		w.refresh()
	case p.board != nil:
		p.done(err)
	default:
		w.cloths.say(err)
	}
}

// anew lays everything anew.
func (p *clothPlans) anew(c cloth.Cloth) *touch {
	t := p.w.button("Forget what was laid by hand", false, func() {
		g, size := p.w.desk.Goods(), p.w.desk.Size()
		if c.Lace != nil {
			p.set(g.WithPlaces(c.Name, size, nil))
		} else {
			p.set(g.WithPins(c.Name, size, nil))
		}
	})
	t.name = "lay anew"
	return t
}

// fields shows what is wished of the piece that is chosen, when another one is.
func (p *clothPlans) fields() {
	w, b, c := p.w, p.board.board, p.board.cloth
	hand := [2]bool{b.Chosen() >= 0 && b.Piece(b.Chosen()).ByHand, b.ByHand()}
	if p.shown == b.Chosen() && p.hand == hand && len(p.acts.Objects) > 0 {
		return
	}
	p.shown, p.hand = b.Chosen(), hand
	row := container.New(line{gap: 8, wrap: p.wide})
	label := func(s string) {
		row.Add(container.New(inset{0, 9}, gap(0, 0), text(s, normal, false, w.palette.Faint)))
	}
	gapNow := w.desk.Goods().LaidOn(c.Name).Gap
	if c.Lace != nil {
		gapNow = w.desk.Goods().OnLaceOf(c.Name, w.desk.Pattern()).Gap
	}
	label("Gap")
	row.Add(p.length("between", gapNow, "", func(mm *float64) cloth.Goods { return w.desk.Goods().WithGap(c, orZero(mm)) }))
	if p.shown >= 0 && c.Lace != nil {
		p.wish(row, label, b.Piece(p.shown).Piece)
	}
	p.wishes.Objects = []fyne.CanvasObject{row}
	p.wishes.Refresh()

	acts := container.New(line{gap: 8})
	if p.shown >= 0 && b.Piece(p.shown).ByHand {
		acts.Add(w.button("Unpin it", false, func() { p.set(p.board.board.LetGo(w.desk.Goods(), w.desk.Size())) }))
	}
	if b.ByHand() {
		acts.Add(w.button("Lay the rest anew", false, func() { p.set(p.board.board.Around(w.desk.Goods(), w.desk.Size())) }))
		acts.Add(p.anew(c))
	}
	save := container.New(line{}, w.button("Save the plan\u2026", false, p.ask))
	p.acts.Objects = []fyne.CanvasObject{container.New(ends{}, acts, save)}
	p.acts.Refresh()
	w.cloths.part.Refresh()
}

func orZero(mm *float64) float64 {
	if mm == nil {
		return 0
	}
	return *mm
}

// length is a field for a length; empty it is nil.
func (p *clothPlans) length(name string, mm float64, empty string, with func(mm *float64) cloth.Goods) *entry {
	was := ""
	if !math.IsNaN(mm) {
		was = p.w.column.exact(mm)
	}
	e := newEntry(was, planField, func(s string, changed bool) {
		if !changed {
			return
		}
		if s == "" {
			p.set(with(nil))
			return
		}
		v, err := p.w.read(s)
		if err != nil {
			p.done(err)
			return
		}
		p.set(with(&v))
	}, p.w.backOut)
	p.w.counting(e).name = "plan " + name
	e.PlaceHolder = empty
	return e
}

const anywhere = "anywhere"

// wish shows how a piece is to lie on the lace: which spot is held where in the
// motif, and how deep.
func (p *clothPlans) wish(row *fyne.Container, label func(string), piece string) {
	w, c := p.w, p.board.cloth
	pat := w.desk.Pattern()
	on := w.desk.Goods().OnLaceOf(c.Name, pat)
	i := slices.IndexFunc(on.Wishes, func(o cloth.Wish) bool { return o.Piece == piece })
	pc := pat.Piece(piece)
	if i < 0 || pc == nil {
		return
	}
	now := on.Wishes[i]
	with := func(set func(*cloth.Wish)) cloth.Goods {
		next := now
		set(&next)
		return w.desk.Goods().WithWish(c.Name, pat, next)
	}
	label("Place")
	if pc.Fold() != nil {
		row.Add(container.New(inset{0, 9}, gap(0, 0), text("its fold", normal, false, w.palette.Text)))
	} else {
		words, spots := heldSpots(pc, now)
		at := slices.IndexFunc(spots, func(s *pattern.Spot) bool { return reflect.DeepEqual(s, now.Spot) })
		pick := newChoice(words, words[max(at, 0)], func(s string) {
			p.set(with(func(o *cloth.Wish) { o.Spot = spots[slices.Index(words, s)] }))
		})
		pick.name = "plan spot"
		row.Add(pick)
	}
	label("so far beyond a motif point:")
	motif := math.NaN()
	if now.Motif != nil {
		motif = *now.Motif
	}
	row.Add(p.length("motif", motif, anywhere, func(mm *float64) cloth.Goods { return with(func(o *cloth.Wish) { o.Motif = mm }) }))
	label("below the valley line:")
	row.Add(p.length("depth", now.Depth, "", func(mm *float64) cloth.Goods { return with(func(o *cloth.Wish) { o.Depth = orZero(mm) }) }))
}

// heldSpots lists the spots by which a piece can be held at the motif.
func heldSpots(pc *pattern.Piece, now cloth.Wish) (words []string, spots []*pattern.Spot) {
	e := cloth.LaceEdge(pc)
	if now.Edge != "" {
		e = pc.Edge(now.Edge)
	}
	words, spots = []string{"its middle"}, []*pattern.Spot{nil}
	if e == nil {
		return words, spots
	}
	add := func(word string, s pattern.Spot) { words, spots = append(words, word), append(spots, &s) }
	i := slices.IndexFunc(pc.Edges, func(o pattern.Edge) bool { return o.Name == e.Name })
	n := len(pc.Edges)
	add("its end at "+pc.Edges[(i+n-1)%n].Name, pattern.AtEnd(pc.Name, e.Name, pattern.Start))
	add("its end at "+pc.Edges[(i+1)%n].Name, pattern.AtEnd(pc.Name, e.Name, pattern.End))
	for _, nt := range pc.Notches {
		if nt.Edge == e.Name {
			add(pattern.NotchWords(nt.Name), pattern.AtNotch(pc.Name, nt.Name))
		}
	}
	if now.Spot != nil && !slices.ContainsFunc(spots, func(s *pattern.Spot) bool { return reflect.DeepEqual(s, now.Spot) }) {
		words, spots = append(words, now.Spot.String()), append(spots, now.Spot)
	}
	return words, spots
}

// ask asks where the plan is to be saved, on a page.
func (p *clothPlans) ask() {
	w := p.w
	w.filePage(fileAsk{title: "Save the plan of " + p.of + ", " + pattern.SizeWords(w.desk.Size()), act: "Save", saving: true, name: w.stem() + "-" + strings.ReplaceAll(p.of, " ", "-") + "-" + w.desk.Size() + ".pdf",
		kinds: []fileKind{{"Plan (.pdf)", []string{".pdf"}}},
		take: func(path string, told func(error)) {
			told(nil)
			p.write(path)
		}})
}

func (p *clothPlans) write(path string) {
	w, name := p.w, p.of
	doc, size, paper := w.desk.Document(), w.desk.Size(), render.A4
	if w.unit == unit.InchFractions {
		paper = render.Letter
	}
	var err error
	w.begin(func(t *task) {
		err = t.write(path, func(o io.Writer) error { return handout.WritePlan(o, doc, size, name, paper) })
	}, func() {
		if err != nil {
			p.done(fmt.Errorf("%s was not written: %w", filepath.Base(path), err))
			return
		}
		p.told.Objects = []fyne.CanvasObject{para(filepath.Base(path)+" is written.", p.wide, normal, true, w.palette.Text)}
		p.told.Refresh()
	})
}
