package command

import (
	"fmt"

	"github.com/spf13/pflag"
	"truemat/ops/cloth"
	"truemat/ops/step"
	"truemat/render"
)

// onHelp explains the flags of onFlags; it goes into the help of a command.
const onHelp = `
Several sizes lie on each other, pieces on a fold by its middle, others by
theirs. --on names a spot of a piece that is to lie on itself in all sizes, and
--along a second spot of that piece: then the line through both does. A spot is
a piece, a colon and a place: "cradle: hem start" (or end, middle, 30%, 12mm,
12mm from end) or "inner cup: notch apex".
`

// onFlags are the flags that say on what the sizes lie.
func onFlags(f *pflag.FlagSet) {
	f.StringArray("on", nil, "a spot on which the sizes of its piece lie; once for a piece")
	f.StringArray("along", nil, "a second spot of that piece: the line through both lies on itself")
}

// common returns what the flags of onFlags say.
func (c *call) common() ([]render.Common, error) {
	on, _ := c.flags.GetStringArray("on")
	along, _ := c.flags.GetStringArray("along")
	var all []render.Common
	for _, text := range on {
		at, err := render.ParseCommon(text, "")
		if err != nil {
			return nil, usageError("--on: " + err.Error())
		}
		all = append(all, at)
	}
next:
	for _, text := range along {
		second, err := render.ParseCommon(text, "")
		if err != nil {
			return nil, usageError("--along: " + err.Error())
		}
		for i := range all {
			if all[i].At.Piece == second.At.Piece && all[i].Along == nil {
				all[i].Along = &second.At
				continue next
			}
		}
		return nil, usageError(fmt.Sprintf("--along %q needs an --on with another spot of %s", text, second.At.Piece))
	}
	return all, nil
}

// sizePieces returns the pieces of each size, all or those named, with a label
// that says when the size is behind.
func sizePieces(g cloth.Goods, results []step.Result, only []string) ([]render.SizePieces, error) {
	var sizes []render.SizePieces
	for _, r := range results {
		pieces, err := choose(r.Size.Pattern, only)
		if err != nil {
			return nil, err
		}
		label := r.Size.Label
		if r.Behind() {
			label += " (NOT ALL STEPS DONE)"
		}
		sizes = append(sizes, render.SizePieces{Label: label, Pieces: g.Named(pieces)})
	}
	return sizes, nil
}
