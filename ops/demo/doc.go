// Package demo drafts the Tern, a bra of our own invention in a run of sizes:
// a full frame of bridge, cradle and band, and a cup of three parts.
//
// Everything follows from three measures of a size, the wire's diameter, the
// depth of the cup and the body's underbust, by formulas that stand beside the
// pieces they make. All figures in them are our own draft after common
// practice, in mm.
package demo
