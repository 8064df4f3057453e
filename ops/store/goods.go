package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
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
