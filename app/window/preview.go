package window

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"truemat/app/mat"
	"truemat/app/tool"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// preview is what the tool's proposal would do.
type preview struct {
	asked  bool // there is a proposal that waits to be accepted
	steps  []step.Step
	pieces []pattern.Piece
	seams  []pattern.Seam
	ghost  []pattern.Piece
	names  map[string]bool
	live   string // the differences in short
	err    error
}

// frame is the least time between two pictures of a drag. It is shorter than a
// frame of the display, so that a picture does not miss the next of these.
const frame = 8 * time.Millisecond

// soon shows what the tool does with the next picture of the display; before the
// window runs, as in tests and pictures, it does so at once, unless that is
// pending already.
func (w *Window) soon() {
	switch {
	case w.running:
		w.beat.want()
	case !w.pending:
		w.show()
	}
}

// pace is the time from one picture to the next, so that half of it is left to
// the rest: at least some, and twice what a picture takes. Of the last two
// pictures the quicker one counts, since one that waited for the processor
// would else hold up the next for twice as long.
func (w *Window) pace(least time.Duration) time.Duration {
	return max(least, 2*min(w.cost, w.before))
}

// show draws the mat and the line above the tray.
func (w *Window) show() {
	start := time.Now()
	w.pending, w.beat.pending = false, false
	w.shown = w.try()
	w.lookElsewhere()
	v := mat.View{
		Pieces: w.desk.Pattern().Pieces, Preview: w.shown.names, Ghost: w.shown.ghost, Nested: w.others(), Sizes: w.beneathAre(w.nested),
		Selection: w.desk.Selection(), Overlay: w.tool().Overlay(), Unit: w.unit,
	}
	if w.shown.pieces != nil {
		v.Pieces = w.shown.pieces
	}
	if w.rehearsal == nil {
		v.Traced = w.traced()
	}
	if w.rehearsal != nil && w.shown.err == nil {
		v.Overlay = w.rehearsal.marks(pattern.Pattern{Pieces: v.Pieces})
	}
	w.layElsewhere(&v)
	w.pointOut(&v.Overlay)
	w.column.markCheck(&v.Overlay)
	for i, n := range v.Overlay.Notes {
		v.Overlay.Notes[i].Text = unit.Brief(n.Text, w.unit)
	}
	w.mat.Lay(v)
	w.prompt.refresh()
	w.seeLarger()
	w.column.follow()
	w.column.tellRehearsed()
	w.before, w.cost = w.cost, time.Since(start)
	w.play()
}

// traced names the pieces under which the tool in the hand, or that of the
// lesson's act, wants to be seen what lies there.
func (w *Window) traced() map[string]bool {
	if t, ok := w.tool().(tool.Tracer); ok {
		return t.Traced()
	}
	if w.lesson == nil || w.shown.asked {
		return nil
	}
	act, more := w.lesson.Current()
	for _, other := range w.tools {
		if t, ok := other.(tool.Tracer); more && ok && other.Name() == act.Tool {
			return t.Traced()
		}
	}
	return nil
}

// try works out the proposal of the tool, or the edit that is rehearsed.
func (w *Window) try() preview {
	if w.rehearsal != nil {
		return w.rehearsal.preview(w)
	}
	steps := w.tool().Proposal()
	if len(steps) == 0 {
		return preview{}
	}
	f, ok := w.tool().(tool.Finisher)
	asked := !ok || !f.Held()
	res, err := w.desk.Try(steps...)
	if err != nil {
		return preview{asked: asked, err: err}
	}
	p := against(w.desk.Pattern(), res.Size.Pattern)
	p.asked, p.steps = asked, steps
	if t, ok := w.tool().(tool.Teller); ok {
		p.live = unit.Brief(strings.Join(t.Tells(), betweenDifferences), w.unit)
	}
	if p.live == "" {
		p.live = w.differences(res.Size.Pattern, res.Reports[len(res.Reports)-len(steps):])
	}
	return p
}

// differences tells the greatest changes of length to what the pattern is now,
// lines first. An edge that was divided is told with all its parts.
func (w *Window) differences(now pattern.Pattern, reports []step.Report) string {
	var all []step.Change
	parts := map[[2]string]bool{}
	for _, r := range reports {
		for _, c := range r.Changes {
			if c.Sewn != nil { // as she sews it, told once for all its stretches
				if c.Edge != c.Sewn.Edges[0] {
					continue
				}
				c.Before, c.After = c.Sewn.Before, c.Sewn.After
				parts[[2]string{c.Piece, c.Edge}] = true
				if c.Before > 0 && c.After > 0 && math.Abs(c.After-c.Before) >= 0.005 {
					all = append(all, c)
				}
				continue
			}
			for _, part := range r.Changes {
				beyond := part.Piece == c.Piece && strings.HasPrefix(part.Edge, c.Edge+" after ") || r.Kind == "split" && part.Piece != c.Piece && part.Edge == c.Edge
				if c.What == "length" && c.Edge != "" && c.After > 0 && part.Before == 0 && beyond {
					c.After += part.After
					parts[[2]string{c.Piece, c.Edge}] = true
				}
			}
			if c.What == "length" && c.Before > 0 && c.After > 0 && math.Abs(c.After-c.Before) >= 0.005 {
				all = append(all, c)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b step.Change) int {
		if (a.Line != "") != (b.Line != "") {
			return cmp.Compare(len(b.Line), len(a.Line))
		}
		return cmp.Compare(math.Abs(b.After-b.Before), math.Abs(a.After-a.Before))
	})
	var told []string
	for _, c := range all[:min(len(all), 3)] {
		what := now.LineWords(c.Line)
		if c.Line == "" {
			what = c.Edge + " of " + c.Piece
			if parts[[2]string{c.Piece, c.Edge}] {
				what += ", all parts"
			}
		}
		told = append(told, fmt.Sprintf("%s %s (%s)", what, unit.MM(c.After), signed(c.After-c.Before)))
	}
	return unit.Brief(strings.Join(told, betweenDifferences), w.unit)
}

const betweenDifferences = "   "

func signed(mm float64) string {
	s := unit.MM(math.Abs(mm))
	if mm < 0 {
		return "−" + s
	}
	return "+" + s
}

// sentence writes an error as a sentence.
func sentence(err error) string { return asSentence(err.Error()) }

// asSentence makes a sentence of words.
func asSentence(s string) string {
	s = strings.TrimSpace(s)
	if s == "" {
		return ""
	}
	r := []rune(s)
	s = strings.ToUpper(string(r[:1])) + string(r[1:])
	if !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}
