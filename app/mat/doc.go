// Package mat draws the maker's mat: the pieces at true size on a grid, rulers
// along two sides, and over them what a tool wants to show. It owns the view
// (pan and zoom), reports the pointer in millimetres, and alters nothing.
//
// Three pictures lie on each other: the mat with the pieces that stand still,
// the pieces that are being altered with their ghosts, and selection and
// overlay. Each is drawn again only when what it shows has changed, at most
// once a frame and never within an event.
package mat
