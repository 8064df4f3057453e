// Package recipe opens the steps of one pattern on another: it finds the names
// that they take from the pattern they were made for, tells which of them the
// other pattern lacks, and puts that pattern's own names in their places.
package recipe
