// Package pattern is the model of a sewing pattern: pieces with named edges,
// seams, lines and notches, in one or more sizes, and the one way in which
// all of these are carried through an alteration.
//
// A [Run] is the pattern in its sizes; a [Pattern] is one of them. All sizes
// of a run share the names of pieces and edges and differ in shape. Values
// are never changed once handed out: an alteration clones, changes the clone
// and validates it.
//
// Outlines are sew lines, in millimetres, y up, counter-clockwise, in the
// piece's own coordinates; a piece's pose lays it on the mat. The cut line is
// computed from the allowances.
package pattern
