// Package svg reads the lines of an SVG drawing at true size.
//
// [Read] follows the public standard (W3C, Scalable Vector Graphics 1.1 and
// 2, and the CSS units: 1 in = 25.4 mm = 96 px = 72 pt = 6 pc = 101.6 Q) and
// returns a tree of groups and shapes whose lines are cubics in millimetres,
// y up, the upper left corner of the drawing as origin. Lines and Béziers
// come through exactly, also under uneven transforms, since an affine map
// acts on their control points; arcs and ellipses become cubics within
// [ArcError] at real size.
//
// Nothing that is drawn is dropped in silence: what has no lines to follow
// (pictures, writing) or is drawn wrongly is listed in [Drawing.LeftOut] with
// its line in the file and the reason. A shape with a fault in its data is
// left out as a whole, for half an outline is no outline.
//
// Not done: CSS beyond display and visibility, text as outlines, clipping,
// masks, markers, filters and animation. Each is listed where it is met.
package svg
