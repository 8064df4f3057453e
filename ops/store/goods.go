package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"truemat/ops/cloth"
	"truemat/ops/step"
)

// ReadGoods reads what a garment is cut from and finished with, as
// [cloth.Goods] in JSON. The error says what is wrong and where.
func ReadGoods(r io.Reader) (cloth.Goods, error) {
	b, err := io.ReadAll(io.LimitReader(r, MaxSize+1))
	if err != nil {
		return cloth.Goods{}, err
	}
	if len(b) > MaxSize {
		return cloth.Goods{}, fmt.Errorf("the file is over %d MB", MaxSize>>20)
	}
	var g cloth.Goods
	d := json.NewDecoder(bytes.NewReader(b))
	d.DisallowUnknownFields()
	if err := d.Decode(&g); err != nil {
		return cloth.Goods{}, located(b, err)
	}
	if len(g.Cloths) == 0 && len(g.Elastics) == 0 {
		return cloth.Goods{}, errors.New("the file describes no cloth and no elastic")
	}
	return g, g.Validate()
}

// SetGoods returns the document with other goods. They are refused when they
// speak of pieces or lines that a size does not have after all steps.
func (d Document) SetGoods(g cloth.Goods) (Document, error) { return d.SetGoodsOn(g, d.Results()) }

// SetGoodsOn is SetGoods for the results of the document, where they are known.
func (d Document) SetGoodsOn(g cloth.Goods, results []step.Result) (Document, error) {
	if err := g.Validate(); err != nil {
		return Document{}, err
	}
	for _, r := range results {
		if err := g.Fits(r.Size.Pattern); err != nil {
			return Document{}, fmt.Errorf("size %s: %w", r.Size.Label, err)
		}
	}
	labels := d.Source.Labels()
	for _, size := range g.HandSizes() {
		if !slices.Contains(labels, size) {
			return Document{}, fmt.Errorf("pieces are laid by hand for a size %q, which the pattern does not have; it has %s", size, strings.Join(labels, ", "))
		}
	}
	d.Goods = g
	return d, nil
}

// Following returns the document with its goods speaking of things by the names
// that its recipe gives them, where it had another recipe when they were stated:
// a rename that has come since is followed, one that has gone is taken back, and
// pieces that have been taped are one.
func (d Document) Following(was step.Recipe) Document {
	for i := len(was) - 1; i >= 0; i-- {
		if r, ok := was[i].Step.(*step.Rename); ok && !does(d.Recipe, was[i]) && !was[i].Off {
			d.Goods = d.Goods.Renamed(back(r))
		}
	}
	for _, e := range d.Recipe {
		if e.Off || does(was, e) {
			continue
		}
		switch s := e.Step.(type) {
		case *step.Rename:
			d.Goods = d.Goods.Renamed(cloth.Renaming{Piece: s.Piece, Edge: s.Edge, Notch: s.Notch, Seam: s.Seam, Line: s.Line, To: s.To})
		case *step.Tape:
			if slices.ContainsFunc(was, func(o step.Entry) bool { return o.ID == e.ID }) {
				continue // the pieces were one before it was changed
			}
			name := s.Name
			if name == "" {
				name = s.A.Piece
			}
			d.Goods = d.Goods.Joined(s.A.Piece, s.B.Piece, name)
		}
	}
	return d
}

// does reports whether a recipe does an entry as it is.
func does(r step.Recipe, e step.Entry) bool {
	return slices.ContainsFunc(r, func(o step.Entry) bool {
		return o.ID == e.ID && !o.Off && reflect.DeepEqual(o.Step, e.Step)
	})
}

// back gives what was renamed its former name.
func back(r *step.Rename) cloth.Renaming {
	out := cloth.Renaming{Piece: r.Piece, Edge: r.Edge, Notch: r.Notch, Seam: r.Seam, Line: r.Line}
	switch {
	case r.Seam != "":
		out.Seam, out.To = r.To, r.Seam
	case r.Line != "":
		out.Line, out.To = r.To, r.Line
	case r.Edge != "":
		out.Edge, out.To = r.To, r.Edge
	case r.Notch != "":
		out.Notch, out.To = r.To, r.Notch
	default:
		out.Piece, out.To = r.To, r.Piece
	}
	return out
}
