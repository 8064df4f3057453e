package window

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
	"truemat/app/desk"
	"truemat/app/tool"
	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/store"
)

// Things that fields of the tools take, and such as none or one takes.
var (
	typedTexts   = []string{"7", "12.5", "0.6", "35 %", "3°", "2", "another word", "band", "cradle, band"}
	typedNothing = []string{"?", strings.Repeat("9", 400)}
)

// pageOf turns to the page of fields on which one stands.
func (p *prompt) pageOf(field string) {
	for i, f := range p.w.tool().Fields() {
		for page, on := range p.pages {
			if f.Name == field && slices.Contains(on, i) && page != p.page {
				p.page, p.paged = page, 0
				p.refresh()
			}
		}
	}
}

// Whatever is typed into a field of whichever tool counts when the button that
// accepts is pressed without Enter; what cannot be read is told and nothing is
// done.
func TestWhatIsTypedCountsWhenTheButtonIsPressed(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	run.Sizes = run.Sizes[:1]
	d, err := desk.New(store.Document{Source: run}, "")
	require.NoError(t, err)
	w := open(t, false)
	w.put(d)
	w.refresh()
	for _, e := range demo.TernInLace()[:6] { // two pieces lie to be taped
		require.NoError(t, w.desk.Accept(e.Step))
	}
	require.NoError(t, w.desk.Accept(&step.Add{EdgeEnd: step.EdgeEnd{Piece: "inner cup", Edge: "vertical seam", End: pattern.Start}, Amount: step.Lit(3)})) // a seam to level
	count := len(w.desk.Document().Recipe)
	w.column.folded = true // it takes time
	w.build()
	counted := 0
	r := rand.New(rand.NewPCG(1, 2))
	for i, tl := range w.tools {
		w.choose(i)
		done, seen := map[string]bool{}, map[string]bool{}
		for n := range 160 {
			if n > 60 && len(done) == len(seen) {
				break
			}
			w.wander(r, tl)
			for _, f := range tl.Fields() {
				if len(f.Options) > 0 {
					continue
				}
				seen[f.Name] = true
				if done[f.Name] {
					continue
				}
				if text, want := w.changes(tl, f); want != "" {
					done[f.Name] = true
					w.pressAfterTyping(t, tl, f.Name, text, want)
					require.Len(t, w.desk.Document().Recipe, count)
				}
			}
		}
		if len(seen) > 0 {
			require.NotEmpty(t, done, tl.Name())
		}
		counted += len(done)
	}
	require.Greater(t, counted, 40)
}

// What was typed for one piece and not accepted is not done when another is
// pressed, and that is told.
func TestWhatWasTypedAndNotAcceptedIsToldWhenItIsDropped(t *testing.T) {
	w := open(t, false)
	at, err := (&sitting{Window: w}).spots(along("cradle", "hem", 0.5), along("band", "hem", 0.5))
	require.NoError(t, err)
	press := func(at geom.Point) {
		for _, act := range []tool.Act{tool.Press, tool.Release} {
			w.pointer(tool.Event{Act: act, At: at, Reach: 3})
		}
	}
	press(at[0])
	w.typeIn(t, "x", "20")
	w.focusMat()
	press(at[1])
	require.Empty(t, w.desk.Document().Recipe)
	require.Contains(t, w.prompt.wrong.Text, "Not accepted, and so not done: Move cradle")
	press(at[0])
	require.Empty(t, w.prompt.wrong.Text)
	w.typeIn(t, "x", "20")
	test.Tap(w.trayAt(t, "ruler"))
	require.Contains(t, w.prompt.wrong.Text, "Not accepted, and so not done: Move cradle")
	require.Empty(t, w.desk.Document().Recipe)
}

// wander does something with a tool.
func (w *Window) wander(r *rand.Rand, tl tool.Tool) {
	p := w.desk.Pattern()
	switch r.IntN(8) {
	case 0:
		tl.Reset()
	case 1, 2:
		if f := tl.Fields(); len(f) > 0 {
			if f := f[r.IntN(len(f))]; len(f.Options) > 0 {
				_ = tl.Set(f.Name, f.Options[r.IntN(len(f.Options))])
			} else {
				_ = tl.Set(f.Name, typedTexts[r.IntN(len(typedTexts))])
			}
		}
	case 3:
		tl.Key(tool.Key{Name: []tool.KeyName{tool.Next, tool.Choose, tool.Right}[r.IntN(3)], Step: 1})
	default:
		pc := p.Pieces[r.IntN(len(p.Pieces))]
		e := pc.Edges[r.IntN(len(pc.Edges))]
		at := pc.Pose.Apply(e.Path.At(e.Length() * []float64{0, 0.5, 1, r.Float64()}[r.IntN(4)]))
		to := at.Add(geom.Pt(20*r.Float64(), 20*r.Float64()))
		tl.Pointer(tool.Event{Act: tool.Press, At: at, Reach: 3})
		if r.IntN(4) == 0 {
			tl.Pointer(tool.Event{Act: tool.Drag, At: to, Reach: 3})
		}
		tl.Pointer(tool.Event{Act: tool.Release, At: to, Reach: 3})
	}
}

// changes returns a text with which the tool proposes something else that can
// be done, and what.
func (w *Window) changes(tl tool.Tool, f tool.Field) (text, want string) {
	was := proposed(tl)
	back := tool.Remember(tl)
	defer back()
	for _, s := range typedTexts {
		if tl.Set(f.Name, s) == nil {
			if now := proposed(tl); now != was && now != "null" {
				if _, err := w.desk.Try(tl.Proposal()...); err == nil {
					return s, now
				}
			}
		}
		back()
	}
	return "", ""
}

func proposed(tl tool.Tool) string {
	b, err := json.Marshal(tl.Proposal())
	if err != nil {
		return "null"
	}
	return string(b)
}

// pressAfterTyping types into a field first what cannot be read, then what can,
// and presses the button each time.
func (w *Window) pressAfterTyping(t *testing.T, tl tool.Tool, field, text, want string) {
	t.Helper()
	before, count, back := w.written(t), len(w.desk.Document().Recipe), tool.Remember(tl)
	accept := w.prompt.acts.Objects[0].(*touch)
	w.show()
	w.prompt.pageOf(field)
	unreadable := typedNothing[slices.IndexFunc(typedNothing, func(s string) bool {
		defer back()
		return tl.Set(field, s) != nil
	})]
	e := w.typeIn(t, field, unreadable)
	test.Tap(accept)
	require.Equal(t, before, w.written(t), "%s %s: what cannot be read does nothing", tl.Name(), field)
	require.NotEmpty(t, w.prompt.wrong.Text)
	require.Same(t, e, w.prompt.boxes[field])
	require.Equal(t, unreadable, e.Text, "it stays to be mended")
	w.accept()
	require.Equal(t, before, w.written(t), "nor does Enter")

	e.SetText("")
	e.SetText(text)
	test.Tap(accept)
	require.NoError(t, w.prompt.said)
	require.NoError(t, w.shown.err)
	all := w.desk.Document().Recipe
	require.Greater(t, len(all), count, "%s %s %s", tl.Name(), field, text)
	var steps []step.Step
	for _, e := range all[count:] {
		steps = append(steps, e.Step)
	}
	got, err := json.Marshal(steps)
	require.NoError(t, err)
	require.JSONEq(t, want, string(got), "%s %s %s", tl.Name(), field, text)
	w.undo()
	require.Equal(t, before, w.written(t))
	back()
}

// What an accepted step breaks is told in the room of the fields where there are
// none, so that it covers no more of the mat in a low window, and as many words stand
// in a line as there is room for.
func TestWhatAStepBreaksTakesTheRoomOfTheFields(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	w.prompt.refresh()
	tall := w.prompt.tall
	w.prompt.reportWith("Step 3 is kept. Red now: A corner in the wire line, A corner in the hem, Length of hem, 2 more.", check.Broken)
	require.Equal(t, tall, w.prompt.tall)
	said := strings.Join(texts(w.prompt.row), " ")
	require.NotContains(t, said, "…")
	require.Contains(t, w.prompt.wrong.Text, "Step 3 is kept. Red now: A corner", "the line goes on after the first sentence")
}

// That a step is kept is told in the line that the hint has free, so that it hides no
// more of the mat.
func TestWhatIsKeptIsToldInAFreeLineOfTheHint(t *testing.T) {
	w := open(t, false)
	w.win.Resize(lowest)
	w.choose(slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == "chalk" }))
	require.NotEmpty(t, reachable(w.prompt.fields))
	tall := w.prompt.tall
	w.prompt.reportWith("Step 7 is kept.", check.Holds)
	require.True(t, w.prompt.above)
	require.LessOrEqual(t, w.prompt.tall, tall+wrongHeight-hintHeight)
	bottom := func(o fyne.CanvasObject) float32 {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y + o.MinSize().Height
	}
	top := func(o fyne.CanvasObject) float32 { return bottom(o) - o.MinSize().Height }
	require.GreaterOrEqual(t, top(w.prompt.wrong), bottom(w.prompt.hint))
	require.GreaterOrEqual(t, top(w.prompt.fields), bottom(w.prompt.wrong))
}

// In a low window what was done stands in place of what else the hint tells, so that
// it hides no more of the mat.
func TestInALowWindowWhatWasDoneComesBeforeTheRestOfAHint(t *testing.T) {
	w := open(t, true)
	w.win.Resize(lowest)
	w.choose(slices.IndexFunc(w.tools, func(x tool.Tool) bool { return x.Name() == "add" }))
	whole := strings.Join(texts(w.prompt.top), " ")
	require.NotEmpty(t, w.prompt.hints[0].Text, "two lines")
	tall := w.prompt.tall
	w.prompt.reportWith("Step 6 is kept.", check.Holds)
	require.Empty(t, w.prompt.hints[0].Text)
	require.True(t, strings.HasPrefix(whole, w.prompt.hint.Text) && strings.HasSuffix(w.prompt.hint.Text, "."), w.prompt.hint.Text)
	require.LessOrEqual(t, w.prompt.tall, tall+wrongHeight-hintHeight)
	w.prompt.report("")
	require.Equal(t, whole, strings.Join(texts(w.prompt.top), " "))
}

// A seam that was broken already is not told anew when the check leads to another of
// its edges since.
func TestWhatWasBrokenElsewhereOnASeamIsNotNew(t *testing.T) {
	at := func(piece string, v check.Verdict) []check.Check {
		return []check.Check{{ID: check.SeamAllowance, Seam: "vertical seam", Piece: piece, Edge: "vertical seam", Verdict: v}}
	}
	require.Empty(t, newlyBroken(at("inner cup", check.Broken), at("lower outer cup", check.Broken)))
	require.Contains(t, newlyBroken(at("inner cup", check.Holds), at("lower outer cup", check.Broken)), "Allowances of vertical seam")
}
