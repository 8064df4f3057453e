package main

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
	"truemat/ops/store"
)

// mainSteps are the steps of the demo recipe that the main job consists of.
var mainSteps = []string{
	"hem-off-bridge", "hem-off-cradle", "seam-off-bridge", "seam-off-cradle",
	"pin", "turn", "tape", "straight-hem", "smooth-wire", "band-hem", "share-out",
}

// byCommand makes the main job's document with the steps of the demo recipe,
// without a window.
func (r *real) byCommand(steps ...string) store.Document {
	r.t.Helper()
	run, err := demo.Tern()
	require.NoError(r.t, err)
	doc := store.Document{Source: run}
	lace := demo.TernInLace()
	for _, id := range steps {
		if i := lace.Index(id); i >= 0 {
			doc.Recipe = append(doc.Recipe, lace[i])
		}
	}
	require.NoError(r.t, doc.Validate())
	return doc
}

// sameLengths compares every length of every size.
func (r *real) sameLengths(want, got store.Document) {
	r.t.Helper()
	a, b := want.Results(), got.Results()
	require.Len(r.t, b, len(a))
	for i := range a {
		require.False(r.t, b[i].Behind(), "every step applies in %s", b[i].Size.Label)
		for _, pc := range a[i].Size.Pattern.Pieces {
			for _, e := range pc.Edges {
				_, same := b[i].Size.Pattern.Edge(pc.Name, e.Name)
				require.NotNil(r.t, same, "%s of %s in %s", e.Name, pc.Name, a[i].Size.Label)
				assert.InDelta(r.t, e.Length(), same.Length(), 0.05, "%s of %s in %s", e.Name, pc.Name, a[i].Size.Label)
				assert.InDelta(r.t, e.Allowance, same.Allowance, 0.05)
				assert.Equal(r.t, e.Role, same.Role)
			}
		}
	}
}

// backAndForth undoes everything and does it again; both ends have the bytes
// they had.
func (r *real) backAndForth(first []byte) {
	r.t.Helper()
	last, err := os.ReadFile(r.doc)
	require.NoError(r.t, err)
	n := len(r.desk.Document().Recipe)
	r.times(n, "ctrl+z")
	r.save(0)
	b, err := os.ReadFile(r.doc)
	require.NoError(r.t, err)
	require.True(r.t, bytes.Equal(first, b), "undoing all gives the same bytes")
	r.times(n, "ctrl+shift+z")
	r.save(n)
	b, err = os.ReadFile(r.doc)
	require.NoError(r.t, err)
	require.True(r.t, bytes.Equal(last, b), "redoing all as well")
}

// fresh opens the Tern as a document on disk, and returns its bytes.
func (r *real) fresh() []byte {
	r.t.Helper()
	path := r.path("work.truemat")
	require.NoError(r.t, store.Save(path, r.byCommand()))
	b, err := os.ReadFile(path)
	require.NoError(r.t, err)
	r.open(path)
	return b
}

var offEdges = [][2]string{{"bridge", "hem"}, {"cradle", "hem"}, {"bridge", "cradle seam"}, {"cradle", "bridge seam"}}

func TestMainJobByKeysAlone(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	for _, e := range offEdges {
		r.take("w", "allowance")
		r.walkInto(e[0], e[1])
		if e[1] == "hem" {
			r.pick("role", pattern.LaceEdge.Word())
		}
		r.fill("width", "0")
		r.accept()
	}

	r.take("h", "hand")
	r.walkTo("cradle")
	r.pick("lay", "against cradle seam of bridge, together at the wire")
	r.accept()

	r.take("i", "pin")
	r.walkInto("cradle", "corner of wire and bridge seam")
	r.pick("until", "corner of hem and side seam lies on the line")
	r.accept()

	r.take("t", "tape")
	r.choose()
	r.accept()

	for _, piece := range []string{"frame", "band"} {
		r.ruleHem(piece)
		if piece == "frame" {
			r.take("s", "smooth")
			r.walkInto("frame", "wire")
			r.accept()
		}
	}
	r.shareOut(func() {
		r.walkInto("frame", "side seam")
		r.pick("end", "side seam of frame, at the hem")
		r.choose()
	})
	r.take("k", "chalk")
	r.walkTo("frame")
	r.accept()
	r.finish(first)
}

// ruleHem lays the ruler from one end of a hem to the other, by keys.
func (r *real) ruleHem(piece string) {
	r.t.Helper()
	r.take("r", "ruler")
	pc, e := r.desk.Pattern().Edge(piece, "hem")
	require.NotNil(r.t, e)
	i := pc.EdgeIndex("hem")
	before, after := pc.Edges[pc.Prev(i)].Name, pc.Edges[pc.Next(i)].Name
	r.walkInto(piece, "corner of "+before+" and hem")
	r.walkTo("corner of hem and " + after + " of " + piece)
	r.pick("role", pattern.LaceEdge.Word())
	r.accept()
}

func (r *real) shareOut(ends func()) {
	r.t.Helper()
	r.take("a", "add")
	var label string
	for _, f := range r.tool.Fields() {
		if f.Name == "share" {
			label = f.Options[1]
		}
	}
	r.pick("share", label)
	ends()
	r.accept()
}

// finish compares what was saved with the demo recipe, checks it by command,
// and goes back and forth through it.
func (r *real) finish(first []byte) {
	r.t.Helper()
	got := r.save(len(mainSteps) + 1)
	r.sameLengths(r.byCommand(mainSteps...), got)
	require.Equal(r.t, "mark", got.Recipe[len(got.Recipe)-1].Step.Kind())
	require.Contains(r.t, r.command("measure", r.doc, "--size", "75C"), "frame")
	r.backAndForth(first)
}

// at is where a spot lies on the mat.
func (r *real) at(s pattern.Spot) geom.Point {
	r.t.Helper()
	at, err := r.desk.Pattern().Find(s)
	require.NoError(r.t, err)
	return at.Mat
}

// along is a place on an edge, by the share of its length from its start.
func (r *real) along(piece, edge string, share float64) geom.Point {
	r.t.Helper()
	return r.at(pattern.Spot{Piece: piece, Edge: edge, Along: pattern.Along{Share: share}})
}

func TestMainJobByHand(t *testing.T) {
	r := newReal(t)
	first := r.fresh()
	for _, e := range offEdges {
		r.take("w", "allowance")
		r.press(r.along(e[0], e[1], 0.4))
		if e[1] == "hem" {
			r.pick("role", pattern.LaceEdge.Word())
		}
		r.fill("width", "0")
		r.accept()
	}
	pin := pattern.AtEnd("cradle", "bridge seam", pattern.Start)
	corner := pattern.AtEnd("cradle", "hem", pattern.End)

	r.take("h", "hand")
	from, to := r.at(pin), r.at(pattern.AtEnd("bridge", "cradle seam", pattern.End))
	r.hold(from)
	r.drag(from, to)
	r.letGo(to)
	r.accepted()

	r.take("i", "pin")
	r.press(r.at(pin))
	from = r.at(corner)
	r.hold(from)
	at := from
	for _, deg := range []float64{-2, -5, -8.1} {
		next := geom.Turn(geom.Angle(deg)*geom.Degree, r.at(pin)).Apply(from)
		r.drag(at, next)
		at = next
	}
	r.letGo(at)
	r.accept()

	r.take("t", "tape")
	r.press(r.along("bridge", "cradle seam", 0.1))
	r.press(r.along("cradle", "bridge seam", 0.5))
	r.accept()

	for _, piece := range []string{"frame", "band"} {
		r.take("r", "ruler")
		a, b := r.along(piece, "hem", 0), r.along(piece, "hem", 1)
		r.hold(a)
		r.drag(a, b)
		r.letGo(b)
		r.pick("role", pattern.LaceEdge.Word())
		r.accept()
		if piece == "frame" {
			_, wire := r.desk.Pattern().Edge("frame", "wire")
			require.NotNil(t, wire)
			kinks := wire.Path.Corners(pattern.SmoothTurn)
			require.NotEmpty(t, kinks, "the taped wire line has a corner")
			r.take("s", "smooth")
			r.press(r.along("frame", "wire", kinks[0]/wire.Length()))
			r.accept()
		}
	}
	r.shareOut(func() {
		r.press(r.along("frame", "side seam", 0.1))
		r.press(r.along("band", "side seam", 0.9))
	})
	r.take("k", "chalk")
	r.press(r.along("frame", "hem", 0.7).Add(geom.Pt(0, 15)))
	r.accept()
	r.finish(first)
}
