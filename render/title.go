package render

import (
	"fmt"
	"slices"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// titleWidths are the widths in which the title block is set, in heights of
// its capitals.
var titleWidths = []float64{60, 36, 26, 18, 12}

// titleBlocks returns the title block of a piece set in several ways, from
// wide to narrow; that of several sizes explains their dashes where it can.
func titleBlocks(vs []version, patternName string) []block {
	v := vs[0]
	name := blockLine{text: words(v.piece.Name), scale: 1.3, bold: true}
	of := joined(" · ", patternName, sizeText(vs))
	cut := cutText(v.piece, v.shape.whole)
	room := allowanceText(v.shape.edges, v.units)
	set := func(width float64, key []blockLine, texts ...string) block {
		b := append(block{name}, key...)
		for _, t := range texts {
			for _, line := range wrap(keepParts(t, width), 1, false, width) {
				b = append(b, blockLine{text: strings.Trim(line, " ·"), scale: 1})
			}
		}
		return b
	}
	var all []block
	if len(vs) > 1 {
		var key []blockLine
		for _, each := range vs {
			key = append(key, blockLine{text: each.size, scale: 1, sample: &each.cut})
		}
		all = append(all, set(titleWidths[1], key, patternName, cut, room))
	}
	for _, width := range titleWidths {
		all = append(all, set(width, nil, of, cut, room))
	}
	return append(all,
		set(titleWidths[0], nil, joined(" · ", of, cut), room),
		block{blockLine{text: strings.ReplaceAll(joined(" · ", words(v.piece.Name), of, cut, room), unbroken, " "), scale: 1}},
	)
}

// titleParts returns the title block of a piece divided into ever more parts that
// can stand apart, each set in several ways: for a piece with no place for all of
// it. The name comes first.
func titleParts(vs []version, patternName string) [][][]block {
	v := vs[0]
	name := block{{text: words(v.piece.Name), scale: 1.3, bold: true}}
	of, cut, rest := joined(" · ", patternName, sizeText(vs)), cutText(v.piece, v.shape.whole), allowanceText(v.shape.edges, v.units)
	set := func(head block, texts ...string) (ways []block) {
		for _, width := range titleWidths[1:] {
			b := slices.Clone(head)
			for _, t := range texts {
				if t == "" {
					continue
				}
				for _, line := range wrap(keepParts(t, width), 1, false, width) {
					b = append(b, blockLine{text: strings.Trim(line, " ·"), scale: 1})
				}
			}
			ways = append(ways, b)
		}
		return ways
	}
	return [][][]block{
		{set(name, of), set(nil, cut, rest)},
		{set(name, of), set(nil, cut), set(nil, rest)},
		{set(name), set(nil, of), set(nil, cut), set(nil, rest)},
	}
}

// keepParts lets text break only between its parts, where these are narrow
// enough, in heights of capitals.
func keepParts(text string, width float64) string {
	parts := strings.Split(text, " · ")
	for i, p := range parts {
		if TextWidth(p, 1, false) <= width {
			parts[i] = strings.ReplaceAll(p, " ", unbroken)
		}
	}
	return strings.Join(parts, " · ")
}

// joined joins what is not empty.
func joined(sep string, texts ...string) string {
	var kept []string
	for _, t := range texts {
		if t != "" {
			kept = append(kept, t)
		}
	}
	return strings.Join(kept, sep)
}

func sizeText(vs []version) string {
	labels := make([]string, len(vs))
	for i, v := range vs {
		labels[i] = v.size
	}
	return sizesText(labels)
}

// namedSizes is the number of sizes up to which all are named.
const namedSizes = 3

// sizesText names the sizes that are there: "65C to 80E" would promise the
// ones between.
func sizesText(labels []string) string {
	switch n := len(labels); {
	case n > namedSizes:
		return fmt.Sprintf("%d sizes, %s … %s", n, labels[0], labels[n-1])
	case n > 1:
		return "sizes " + strings.Join(labels, ", ")
	case n == 1 && strings.Contains(labels[0], "size"): // as it calls itself
		return labels[0]
	case n == 1 && labels[0] != "":
		return pattern.SizeWords(labels[0])
	}
	return ""
}

// cutText says how often a piece is cut, and from what.
func cutText(pc pattern.Piece, whole bool) string {
	n := max(pc.Cut.Count, 1)
	text := fmt.Sprintf("cut %d", n)
	switch {
	case pc.Cut.Pair && n == 1:
		text += " pair"
	case pc.Cut.Pair:
		text += " pairs"
	}
	if pc.Fold() != nil && !whole {
		text += " on the fold"
	}
	if pc.Cut.Layers > 1 {
		text += fmt.Sprintf(" × %d layers", pc.Cut.Layers)
	}
	return joined(" · ", text, pc.Cut.Cloth)
}

func allowanceText(edges []shapeEdge, units unit.System) string {
	usual, mixed := usualAllowance(edges)
	width := unit.Kept(amount(usual, units))
	switch {
	case usual == 0:
		return "allowance 0"
	case mixed:
		return "allowance " + width + ", else as marked"
	}
	return "allowance " + width
}
