// Package border lays the lace edges of pieces on the borders of a lace: left
// and right on mirrored places of the motif, nothing overlapping, on as short
// a length of lace as can be found.
//
// The lace lies along x. The valley line of the first border is y = 0, its
// scallops hang below; the second border's valley line is y = usable width.
// The motif points of the first border lie a repeat apart, the innermost points
// between two scallops among them. All lengths are in mm.
package border
