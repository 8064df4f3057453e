package pattern

import (
	"strings"

	"truemat/geom"
)

// Edge is a named run of a piece's outline between two joints. Its path is
// open, counter-clockwise along the outline.
type Edge struct {
	Name string    `json:"name"`
	Role Role      `json:"role"`
	Path geom.Path `json:"path"`
	// Allowance is the width from sew line to cut line in mm.
	Allowance float64 `json:"allowance"`
	// Corner says how the allowances end at the joint where this edge starts.
	Corner Corner `json:"corner,omitzero"`
	// Free says that a sewn edge is meant to have no partner in the pattern.
	Free bool `json:"free,omitempty"`

	// follows is what the corner follows, see [Pattern.Guided].
	follows geom.Path
}

// Length returns the length of the edge's sew line in mm.
func (e *Edge) Length() float64 { return e.Path.Length() }

// Role says what an edge is for.
type Role string

// The roles of edges.
const (
	SeamEdge   Role = "seam"
	WireLine   Role = "wire-line" // also sewn
	Hem        Role = "hem"
	Neckline   Role = "neckline"
	Underarm   Role = "underarm"
	LaceEdge   Role = "lace-edge"   // laid on the border of a lace
	TurnedBack Role = "turned-back" // folded back and stitched
	Fold       Role = "fold"
	Closure    Role = "closure"
	DartEdge   Role = "dart" // sewn to the other edge of the dart; its cloth is folded, not cut
)

// Roles lists all roles, in the order in which they are offered.
var Roles = []Role{SeamEdge, WireLine, Hem, Neckline, Underarm, LaceEdge, TurnedBack, Fold, Closure, DartEdge}

// Word is the role as it is spoken: lace edge.
func (r Role) Word() string { return strings.ReplaceAll(string(r), "-", " ") }

// Sewn reports whether an edge of this role is joined to another.
func (r Role) Sewn() bool { return r == SeamEdge || r == WireLine || r == DartEdge }

// Corner says how the allowances of the two edges at a joint end.
type Corner struct {
	End CornerEnd `json:"end"`
	// Of names the edge that the end refers to: the one before the joint or
	// the one after it. It has no meaning for RunsOn and Blunt.
	Of Neighbour `json:"of,omitempty"`
}

// CornerEnd is a way for allowances to end at a corner.
type CornerEnd string

// The ways allowances end at a corner. The zero value means RunsOn.
const (
	// RunsOn lets both cut lines run on until they meet.
	RunsOn CornerEnd = "runs-on"
	// Square ends the allowance of the named edge square to it where its sew
	// line, run on, meets the other edge's cut line.
	Square CornerEnd = "square"
	// FoldsBack shapes the other edge's allowance beyond the named edge (a
	// hem) so that it lies on the piece when turned along the named edge.
	FoldsBack CornerEnd = "folds-back"
	// FadesOut lets the allowance of the named edge run to nothing at the joint.
	FadesOut CornerEnd = "fades-out"
	// Follows ends the allowance of the named edge, which is sewn, along the
	// cut line of the piece it is sewn to, as that lies when the seam is sewn:
	// pressed to that piece the allowance ends with it. Without such a piece it
	// runs on.
	Follows CornerEnd = "follows"
	// Blunt ends both allowances square at the joint and joins their ends.
	Blunt CornerEnd = "blunt"
)

// CornerEnds lists all ways, in the order in which they are offered.
var CornerEnds = []CornerEnd{RunsOn, Square, FoldsBack, Follows, FadesOut, Blunt}

// Neighbour names one of the two edges at a joint.
type Neighbour string

// The two edges at a joint, in the direction of the outline.
const (
	Before Neighbour = "before"
	After  Neighbour = "after"
)

// EndName names one of the two ends of an edge.
type EndName string

// The ends of an edge, in the direction of the outline.
const (
	Start EndName = "start"
	End   EndName = "end"
)

// Along holds a place on an edge: MM millimetres plus Share of the edge's
// length away from the end From.
type Along struct {
	From  EndName `json:"from,omitempty"` // start when empty
	MM    float64 `json:"mm,omitempty"`
	Share float64 `json:"share,omitempty"`
}

// At returns the distance in mm from the start of an edge of that length.
func (a Along) At(length float64) float64 {
	d := a.MM + a.Share*length
	if a.From == End {
		return length - d
	}
	return d
}

// Moved returns the place at s mm from the start of an edge of that length,
// held in the same manner as a: from the same end, as a share if a was one.
func (a Along) Moved(s, length float64) Along {
	if a.From == End {
		s = length - s
	}
	if a.Share != 0 && a.MM == 0 && length > 0 {
		return Along{From: a.From, Share: s / length}
	}
	return Along{From: a.From, MM: s}
}

// Notch is a mark across an edge for matching it with its partner.
type Notch struct {
	Name string `json:"name"`
	Edge string `json:"edge"`
	Along
	Double bool `json:"double,omitempty"`
}
