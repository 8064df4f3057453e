package step

import (
	"fmt"
	"slices"
	"strconv"

	"truemat/geom"
	"truemat/ops/pattern"
)

// divided returns the parts into which an edge cuts a path, in its order. Ends
// of less than placeSlack are left out.
func divided(path, edge geom.Path) []geom.Path {
	at := []float64{0}
	for _, x := range geom.Cross(path, edge).Crossings {
		if !x.Tangent {
			at = append(at, x.S)
		}
	}
	at = append(at, path.Length())
	slices.Sort(at)
	var parts []geom.Path
	for k := 1; k < len(at); k++ {
		if at[k]-at[k-1] <= placeSlack {
			continue
		}
		if part, err := path.Sub(at[k-1], at[k]); err == nil {
			parts = append(parts, part)
		}
	}
	return parts
}

// again returns the name of the k-th part of something that was divided.
func again(name string, k int) string {
	if k == 0 {
		return name
	}
	return name + " part " + strconv.Itoa(k+1)
}

// addInner adds an inner line under its name, or with a number behind it when
// the piece has one of that name.
func addInner(pc *pattern.Piece, in pattern.Inner) {
	taken := func(name string) bool {
		return slices.ContainsFunc(pc.Inner, func(o pattern.Inner) bool { return o.Name == name })
	}
	name := in.Name
	for k := 2; taken(in.Name); k++ {
		in.Name = name + " " + strconv.Itoa(k)
	}
	pc.Inner = append(pc.Inner, in)
}

// trimDrawn cuts inner lines off at the new edge and takes away the inner
// lines and marks that lay on the paper off that is gone. It returns notes.
func trimDrawn(pc *pattern.Piece, edge string, off geom.Path) (notes []string) {
	drawn := pc.Inner
	pc.Inner = nil
	for _, in := range drawn {
		parts := divided(in.Path, pc.Edge(edge).Path)
		kept := slices.DeleteFunc(slices.Clone(parts), func(p geom.Path) bool { return off.Contains(p.At(p.Length() / 2)) })
		switch {
		case len(kept) == 0:
			notes = append(notes, fmt.Sprintf("Inner line %q of %s is cut away.", in.Name, pc.Name))
			continue
		case len(kept) == len(parts): // it may touch the edge
			pc.Inner = append(pc.Inner, in)
			continue
		}
		notes = append(notes, fmt.Sprintf("Inner line %q of %s is cut off at %s.", in.Name, pc.Name, edge))
		for k, part := range kept {
			addInner(pc, pattern.Inner{Name: again(in.Name, k), Kind: in.Kind, Path: part})
		}
	}
	pc.Marks = slices.DeleteFunc(pc.Marks, func(mk pattern.Mark) bool {
		gone := off.Contains(mk.At)
		if gone {
			notes = append(notes, fmt.Sprintf("The mark %q of %s is cut away; write it anew.", mk.Text, pc.Name))
		}
		return gone
	})
	return notes
}

// pointAtFold tells of a new edge that does not meet the fold squarely.
func pointAtFold(pc *pattern.Piece, edge string) (notes []string) {
	if off := offSquareOf(pc, edge); off > foldSlack {
		return []string{fmt.Sprintf("%s meets the fold of %s %.2g degrees off square, which gives a point in the middle of the whole piece; let it arrive square there unless that is wanted.", edge, pc.Name, off)}
	}
	return nil
}

// offSquareOf returns by how many degrees an edge misses the right angle with
// the fold beside it; 0 when it does not lie beside one.
func offSquareOf(pc *pattern.Piece, edge string) float64 {
	f := pc.Fold()
	if f == nil {
		return 0
	}
	off, most := offSquare(pc), 0.0
	i := pc.EdgeIndex(f.Name)
	for k, beside := range []int{pc.Prev(i), pc.Next(i)} {
		if pc.Edges[beside].Name == edge {
			most = max(most, off[k])
		}
	}
	return most
}
