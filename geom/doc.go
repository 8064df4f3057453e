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
package geom
