// Package cloth holds what a pattern is cut from and finished with: cloths
// described by the maker's own pull tests, laces with their scallops, the
// layers each piece is made of, elastics and other notions. It works out what
// they need and whether they suit the pieces; it alters no shape.
//
// Lengths are in mm, stretch, growth and reductions in per cent unless a
// name says otherwise.
package cloth
