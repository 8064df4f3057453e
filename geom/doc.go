// Package geom is plane geometry on one kind of curve: the cubic Bézier.
//
// Every segment is a cubic; a straight one has its handles at thirds, so that
// its parameter is proportional to arc length, and knows that it is straight.
// A [Path] is a run of connected cubics, open or closed. Points, cubics and
// paths are values: nothing here changes in place, and a path that exists is
// finite and connected, because its constructor refuses anything else.
//
// Coordinates are millimetres in float64, y up, angles counter-clockwise.
// Every approximate function states its error. The tolerances shared by all
// of them stand in tolerance.go.
//
// # Own code or a module
//
// The measurements below are on one outline of two curves and two straight
// segments, 140 mm wide, on a busy 2-core machine; the benchmarks repeat ours.
//
// Path data ([Path.String], [ParsePath]) is our own: the general reader of
// github.com/tdewolff/canvas takes all of SVG and gives one loose path where
// ours must give the same segments bit for bit and name the place of an error.
//
// Length ([Cubic.Length], [Path.Locate], [Path.At]) is our own: canvas is as
// quick (0.23 µs) but 1.9e-4 mm off, and its place at a length takes 21 µs and
// is 0.09 mm off; ours take 0.23 and 0.28 µs and are right to 1e-12 mm and
// 1e-9 mm, through cusps. A Gauss rule of 16 points through
// gonum.org/v1/gonum/integrate/quad takes 0.44 µs against 0.04 with the nodes
// in a table; gonum is the witness in the tests instead.
//
// Area, centroid, bounds and winding ([Path.Area], [Path.Centroid],
// [Path.Bounds], [Path.Winding]) are closed forms of a few lines, exact on the
// curves themselves; a polygon library gives them only for chords.
//
// Nearest point ([Path.Nearest]) is our own, no Go module has one for cubics:
// 0.65 µs, all stationary points compared.
//
// Crossings ([Cross], [Path.CrossLine], [Path.SelfCrossings]) are our own:
// canvas panics with "unsupported intersection" on two cubics, and its
// booleans work on chords. Its polygon booleans are the witness in the tests: the area shared
// by two outlines, cut at our crossings, agrees within the flattening.
//
// Flattening, inflections, corners and extreme curvature ([Path.Flatten],
// [Path.Inflections], [Path.Corners], [Path.MaxCurvature]) follow from the
// roots of polynomials of degree 2 and 5. poly.go finds those for everything
// here; gonum has none but as eigenvalues of a matrix.
//
// Parallels ([Path.Parallel]) are our own: canvas offsets chords, which makes
// 130 to 185 straight bits of the sample in 150 to 200 µs, and is 0.18 mm
// wrong on an ellipse, whose radii it both widens. Ours stay curves, one cubic
// for a curve of the sample, and leave out the loops inside tight bends.
//
// Fitting, fair curves and bends ([Fit], [FitCurve], [Path.Blend],
// [Path.Bend]) are our own, no Go module has them. Motions and turns
// ([Motion], [TurnToLine], [TurnToTouch]) are closed forms or one bracketed
// root; a [Motion] keeps lengths by its type, which a general matrix does not.
package geom
