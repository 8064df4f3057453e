package check

import (
	"slices"
	"strings"
)

// SizeChecks are the checks of one size.
type SizeChecks struct {
	Size   string
	Behind string // which step could not apply and why, "" when all did
	Checks []Check
}

// Table holds the checks of several sizes beside each other: a row for each
// thing that is checked, a column for each size.
type Table struct {
	Columns []Column
	Rows    []Row // worst first; otherwise in the order of the garment
}

// Column is a size of a table.
type Column struct {
	Size   string
	Behind string  // which step could not apply and why, "" when all did
	Worst  Verdict // of its checks
}

// Row is one thing that is checked, in every size.
type Row struct {
	// ID and the names say what is checked and where, as in [Check], in the
	// first size that has it; the closest place can be another one in others.
	ID, Piece, Edge, Seam, Line string
	Unit                        string // mm, deg, % or empty for a count
	Worst                       Verdict
	// Cells stand in the order of the columns; nil where the size has no such
	// check, because it has not the place or not the figure.
	Cells []*Check
}

// Tabulate lays the checks of the sizes out as a table. Checks of the same
// place in several sizes share a row; what is measured more than once at a
// place has as many rows.
func Tabulate(sizes []SizeChecks) Table {
	type key struct {
		id, place string
		n         int
	}
	var t Table
	rows := map[key]*Row{}
	var order []*Row
	for i, s := range sizes {
		t.Columns = append(t.Columns, Column{s.Size, s.Behind, Worst(s.Checks)})
		before := -1 // place in order of the row last filled
		for _, c := range s.Checks {
			r := &Row{ID: c.ID, Piece: c.Piece, Edge: c.Edge, Seam: c.Seam, Line: c.Line, Unit: c.Unit, Worst: Holds}
			k := key{c.ID, r.Place(), 0}
			for rows[k] != nil && rows[k].Cells[i] != nil {
				k.n++
			}
			if have := rows[k]; have != nil {
				r = have
			} else {
				r.Cells = make([]*Check, len(sizes))
				rows[k] = r
				order = slices.Insert(order, before+1, r)
			}
			before = slices.Index(order, r)
			r.Cells[i] = &c
			r.Worst = worse(r.Worst, c.Verdict)
		}
	}
	for _, v := range []Verdict{Broken, Look, Holds} {
		for _, r := range order {
			if r.Worst == v {
				t.Rows = append(t.Rows, *r)
			}
		}
	}
	return t
}

// Count returns how many rows have that verdict at worst.
func (t Table) Count(v Verdict) int {
	n := 0
	for _, r := range t.Rows {
		if r.Worst == v {
			n++
		}
	}
	return n
}

// Place says where the row is checked, as "wire seam" or "hem of cradle".
func (r Row) Place() string {
	switch {
	case r.Seam != "" && hasSeam(r.Seam):
		return r.Seam
	case r.Seam != "":
		return "seam " + r.Seam
	case r.Line != "" && r.ID == RunOn:
		return r.Line + " at " + r.Piece
	case r.Line != "":
		return r.Line
	case r.ID == ClothBelow || r.ID == BridgeTop:
		return r.Piece
	case r.Edge != "":
		return r.Edge + " of " + r.Piece
	}
	return r.Piece
}

// figures say of checks what their figure is, where the name does not.
var figures = map[string]string{
	RunOn:          "runs on smoothly",
	LineAllowance:  "step of the cut edges",
	LineCorner:     "corner",
	FoldSquare:     "off square at the fold",
	WireLength:     "change of wire length",
	WireOpening:    "change of wire opening",
	WireDepth:      "change of wire depth",
	WireInflection: "bends to and fro",
	WirePlay:       "play of the wire",
	CupWire:        "cup and wire line differ by",
	HemLength:      "change of hem length",
	HemBody:        "hem against the body",
	SeamLength:     "sides differ by",
	SeamNotches:    "notches off by",
	SeamAllowance:  "allowances differ by",
	SeamEnds:       "ends stick out",
	ClothBelow:     "cloth from wire to hem",
	BridgeTop:      "width of the top",
	LaceStraight:   "lace edge off straight",
	LaceAllowance:  "allowance of lace edge",
	ArrowTurned:    "arrow turned by",
	TurnedBack:     "stretch of what is turned back",
	TurnedRound:    "surplus of what is turned back",
	AlteredMark:    "marks of its own",
	ClosureHeight:  "closure edge against what is bought",
}

// What says what is measured, as "change of wire length".
func (r Row) What() string {
	if said := figures[r.ID]; said != "" {
		return said
	}
	return strings.ReplaceAll(r.ID, "-", " ")
}

// WorstCell returns the check of the row that came out worst, the first of
// those, and the column it stands in.
func (r Row) WorstCell() (Check, int) {
	for i, c := range r.Cells {
		if c != nil && c.Verdict == r.Worst {
			return *c, i
		}
	}
	return Check{}, -1
}
