// Package walk lays the two sides of a seam beside each other and rolls the
// one along the other without slipping, as a maker walks one piece of paper
// along another: it knows where they touch at every walked length, how the
// rolling piece lies there, which notches belong together and by how much they
// miss each other, and where a notch of the one side falls on the other.
package walk
