// Package border lays the lace edges of pieces on the borders of a lace: left
// and right on mirrored places of the motif, nothing overlapping, on as short
// a length of lace as can be found.
//
// The lace lies along x. The valley line of the first border is y = 0, its
// scallops hang below; the second border's valley line is y = usable width.
// The first motif point of the first border is at x = 0, and again after every
// repeat. All lengths are in mm.
package border
