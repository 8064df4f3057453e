package walk

import (
	"fmt"

	"truemat/ops/pattern"
)

// Find returns the length on a side at which a spot lies; false when it is not
// on the side, or before the start of the walk.
func (w *Walk) Find(p pattern.Pattern, h Hand, spot pattern.Spot) (float64, bool, error) {
	place, err := p.Find(spot)
	if err != nil {
		return 0, false, err
	}
	r := w.Run(h)
	for i, pt := range r.Parts {
		if into, ok := intoPart(p, pt, place); ok && into <= r.paths[i].Length()+lengthSlack {
			return r.starts[i] + max(into, 0), true, nil
		}
	}
	return 0, false, nil
}

// intoPart returns how far into a part a place of its edge lies.
func intoPart(p pattern.Pattern, pt pattern.Part, at pattern.Place) (float64, bool) {
	if pt.Piece != at.Piece || pt.Edge != at.Edge {
		return 0, false
	}
	_, e := p.Edge(pt.Piece, pt.Edge)
	into := at.S - pt.From*e.Length()
	if pt.From > pt.To {
		into = -into
	}
	return into, into > -lengthSlack
}

// Place returns the piece, the edge and the place on it that lie at a length
// of a side, held in mm from the end of the edge from which it is walked. At a
// joint it is on the edge that ends there. A length off the side is refused.
func (w *Walk) Place(p pattern.Pattern, h Hand, at float64) (piece, edge string, along pattern.Along, err error) {
	r := w.Run(h)
	if !(at >= -lengthSlack && at <= r.Length+lengthSlack) {
		return "", "", along, fmt.Errorf("%.4g mm lies beyond %s, which is %.4g mm long from where the walk starts", at, partNames(r.Parts), r.Length)
	}
	i, s := r.locate(min(max(at, 0), r.Length), true)
	pt := r.Parts[i]
	_, e := p.Edge(pt.Piece, pt.Edge)
	length := e.Length()
	along.MM = pt.From*length + s
	if pt.From > pt.To {
		along = pattern.Along{From: pattern.End, MM: (1-pt.From)*length + s}
	}
	along.MM = min(max(along.MM, 0), length)
	return pt.Piece, pt.Edge, along, nil
}
