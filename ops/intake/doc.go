// Package intake brings other people's drawings in: it makes a pattern of the
// lines of an SVG drawing, with the help of a companion, a small text file
// that says what the lines mean.
//
// # From lines to pieces
//
// A piece is a group of the drawing, or a single shape. Its outline is the
// largest closed line in it, which may consist of several open ones whose
// ends meet within 0.05 mm. The outline is divided into edges at its corners,
// where it turns by more than 15 degrees in one place. Short strokes across
// the outline, or with an end on it, are notches, two close together a double
// one; other lines become inner lines.
//
// The drawn lines are sew lines, unless an allowance is given: then they are
// cut lines, the sew lines are found inside them (see [pattern.SewEdges]) and
// notches are carried there square to the edge. Corners are taken to run on
// unless the companion says otherwise.
//
// Without a companion every group with one outermost closed line is a piece,
// and so is every closed line drawn outside of such groups, except for lines
// round less than 4 mm²; edges are called edge-1, edge-2 … counter-clockwise from the upper left corner.
//
// The lower left of all pieces of a size becomes the origin of its mat.
//
// # The companion
//
// A line is one statement; what follows a # is a remark. Names of several
// words stand in quotation marks. Lengths are written as 12mm, 1.2cm, 1/4in
// or "3 1/8 in". Names of groups and shapes are their ids, labels or titles.
// Pieces, edges, seams and lines are meant for all sizes.
//
//	pattern "Heron frame"
//	allowance 1/4in            # the drawn lines are cut lines; this is the
//	                           # allowance of edges that have none of their own
//	drawn cut line             # or: drawn sew line; what allowance implies
//	corners 20                 # least turn of a corner, in degrees
//	known "test square" 200mm  # a shape and its true length, for a drawing
//	                           # without size; or: unit 0.5mm, the length of
//	                           # one unit
//	ignore "page frame" notes
//
//	size 34 in "Size 34" band 75 cup B    # a label and the group it is drawn in
//	size 36 in "Size 36" band 80 cup B
//	figure wire 200mm in 34               # wire, closure, underbust,
//	figure wire 208mm in 36               # channelling, elastic
//	wire long 208mm play 6mm 5mm          # a wire of the table and the play at
//	                                      # both ends; a size takes it by
//	                                      # … cup B wire long
//	fit reduction 9% closure 50mm         # of the hem against the body, and
//	                                      # what the closure adds to it
//
//	piece bridge from "bridge s" in 34, "bridge m" in 36   # from: when the
//	                                                # group is called otherwise
//	  cut 1 layers 2 cloth "stable net"             # cut 1 pair: also mirrored
//	  hand right                                    # drawn as the wearer's right
//	  arrow grain along arrow                       # a drawn line, or degrees
//	                                                # against the clock from the
//	                                                # right; grain,
//	                                                # greatest-stretch or
//	                                                # least-stretch
//	  joint near 40 62 in 34                        # divide the outline here too
//	  joint near 30% 95% in 36
//	  smooth near 12 80                             # no joint here
//	  edges from top-left: fold hem seam wire top   # counter-clockwise; or
//	                                                # edges clockwise from …
//	  edge fold role fold
//	  edge hem  role hem allow 12mm
//	  edge top  near 50% 0%  role neckline free     # or name it by a place
//	  corner hem seam: folds-back hem
//	  notches on seam: "bridge notch"               # drawn ones, in order
//	  notch middle on hem at 50%                    # one that is not drawn;
//	                                                # also: at 30mm from end double
//
//	seam "bridge seam": seam of bridge = seam of cradle ease 2mm
//	line "wire line" wire-line count 2: wire of cradle, wire of bridge
//
// The corner from which the edges are listed is top-left, top-right,
// bottom-left, bottom-right, top, bottom, left or right, found in each size,
// or near X Y. A place is given in the units of the drawing as its program
// shows them, x to the right and y down, or as percentages of the piece's
// width and height from its top left, which serve for every size. Behind it,
// in SIZE limits it to one size.
//
// Where a corner of the drawn cut line is shaped, cut off blunt for instance,
// its outline has one joint too many: take it away with smooth and say with
// corner how the allowances end there.
//
// Roles are seam, wire-line, hem, neckline, underarm, lace-edge, turned-back,
// fold and closure. Corner ends are runs-on, square EDGE, folds-back EDGE,
// fades-out EDGE and blunt.
//
// The two sides of a seam are lists of EDGE of PIECE. The left one is walked
// with its outline, counter-clockwise, the right one against it, as two
// pieces lie when they are laid seam to seam; reversed turns a part round,
// mirrored takes the other hand, from 0.25 to 1 takes a stretch of the edge.
// The parts of a line are walked with their outlines. Kinds of line are
// wire-line, hem, neckline and underarm.
package intake
