package suit

import (
	"fmt"
	"math"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/pattern"
)

// Closing tells how the finished hem, closed, goes round the body under the
// bust, in every column of eyes.
type Closing struct {
	Line      string  `json:"line"` // the hem
	Underbust float64 `json:"underbust_mm"`
	// Wanted is by how many per cent of the body the hem is meant to be shorter.
	Wanted float64 `json:"wanted_percent,omitempty"`
	// Firm is how much of the round does not give: the firm pieces.
	Firm float64 `json:"firm_mm"`
	// Gives is how much of it gives: pieces whose arrow shows the greatest stretch.
	Gives   float64  `json:"gives_mm"`
	Columns []Column `json:"columns"`
	// Nearest is the column whose reduction is nearest to the wanted one; 0 when
	// none is wanted.
	Nearest int `json:"nearest_column,omitempty"`
	// Elastics reports whether an elastic along the hem is described.
	Elastics bool `json:"elastics,omitempty"`
}

// Column is the hem fastened in one column of eyes, from 1, the loosest.
type Column struct {
	Column   int     `json:"column"`
	Worn     bool    `json:"worn"`
	Fastened float64 `json:"fastened_mm"` // what the closure adds
	Girth    float64 `json:"girth_mm"`    // of the sewn hem, flat, closure included
	// Drawn is the girth when the elastics along the hem have drawn it in.
	Drawn     float64 `json:"drawn_in_mm"`
	Reduction float64 `json:"reduction_percent"` // r, of the body's measure
	Strain    float64 `json:"strain_percent"`    // r/(1 − r): of all the hem, worn
	// Band is by how many per cent the pieces that give are stretched on the
	// body, the firm ones and the closure not giving at all; 0 when none gives.
	Band float64 `json:"band_strain_percent,omitempty"`
	// Elastic is the greatest strain of an elastic along the hem, worn.
	Elastic float64 `json:"elastic_strain_percent,omitempty"`
}

// Close works out how the hem closes round the body; ok is false when the
// pattern has no hem or states no underbust.
func Close(g cloth.Goods, p pattern.Pattern) (Closing, bool) {
	body := p.Figures[pattern.FigureUnderbust]
	girth, hem, ok := check.HemRound(p)
	if !ok || body <= 0 {
		return Closing{}, false
	}
	c := Closing{Line: hem.Name, Underbust: body, Wanted: p.Figures[pattern.FigureReduction]}
	for _, l := range p.Lines {
		if l.Kind != pattern.LineHem {
			continue
		}
		for _, pt := range l.Parts {
			run := p.PartLength(pt) * float64(max(l.Count, 1))
			if pc := p.Piece(pt.Piece); pc != nil && pc.Arrow.Kind == pattern.MostStretch {
				c.Gives += run
			} else {
				c.Firm += run
			}
		}
	}
	drawn, elastics := drawnIn(g, p)
	c.Elastics = len(elastics) > 0
	fastened, eyes, best := p.Figures[pattern.FigureFastened], g.Notions.Eyes, math.Inf(1)
	for k := 1; k <= max(eyes.Columns, 1); k++ {
		over := eyes.Looser(k)
		col := Column{Column: k, Worn: k == eyes.InWear(), Fastened: fastened + over, Girth: girth + over, Drawn: girth + over - drawn}
		col.Reduction = (1 - col.Girth/body) * 100
		col.Strain = cloth.Strain(col.Reduction)
		if c.Gives > 0 {
			col.Band = ((body-col.Fastened-c.Firm)/c.Gives - 1) * 100
		}
		for _, part := range elastics {
			on := 0.0
			if pc := p.Piece(part.Piece); pc != nil && pc.Arrow.Kind == pattern.MostStretch {
				on = col.Band / 100
			}
			if part.Length > 0 {
				col.Elastic = max(col.Elastic, (part.Run*(1+on)/part.Length-1)*100)
			}
		}
		c.Columns = append(c.Columns, col)
		if off := math.Abs(col.Reduction - c.Wanted); c.Wanted > 0 && off < best-columnSame {
			best, c.Nearest = off, k
		}
	}
	return c, true
}

// columnSame is the difference of two reductions in per cent that tells no
// column from another.
const columnSame = 1e-9

// drawnIn returns by how many mm the elastics along the hem are shorter than
// it, and their parts. An elastic that lies on another adds nothing: the hem is
// drawn in by the one that draws most.
func drawnIn(g cloth.Goods, p pattern.Pattern) (float64, []cloth.CutStretch) {
	most := map[string]float64{}
	var parts []cloth.CutStretch
	for _, e := range g.Elastics {
		if l := p.Line(e.Line); l == nil || l.Kind != pattern.LineHem {
			continue
		}
		cut, err := e.Cut(p)
		if err != nil {
			continue // a line that is missing is told when the goods are taken
		}
		here := map[string]float64{}
		for _, part := range cut.Parts {
			here[part.Piece] += part.Run - part.Length
			parts = append(parts, part)
		}
		for piece, less := range here {
			most[piece] = max(most[piece], less)
		}
	}
	sum := 0.0
	for _, less := range most {
		sum += less
	}
	return sum, parts
}

// closing checks the column of eyes that is worn, and whether the band gives
// as much as the body asks of it.
func closing(g cloth.Goods, p pattern.Pattern, b Bounds) []check.Check {
	c, ok := Close(g, p)
	if !ok {
		return nil
	}
	var out []check.Check
	if c.Wanted > 0 && g.Notions.Eyes.Columns > 0 {
		out = append(out, c.column(b))
	}
	return append(out, c.band(g, p, b)...)
}

func (c Closing) worn() Column {
	for _, col := range c.Columns {
		if col.Worn {
			return col
		}
	}
	return c.Columns[0]
}

func (c Closing) column(b Bounds) check.Check {
	w, near := c.worn(), c.Columns[c.Nearest-1]
	out := check.Check{ID: ClosureColumn, Line: c.Line, Unit: "%", Measured: w.Reduction - c.Wanted, Allowed: fmt.Sprintf("± %g %% of the body, look to ± %g %%, and no other column nearer", b.Column.Holds, b.Column.Look)}
	out.Text = fmt.Sprintf("Closed in column %d of %d the %s goes round in %.0f mm, %s the body's %.0f mm, and is worn stretched by %.1f %%", w.Column, len(c.Columns), c.Line, w.Girth, lessThan(w.Reduction), c.Underbust, w.Strain)
	out.Verdict = b.Column.Verdict(near.Reduction - c.Wanted)
	remedy := fmt.Sprintf("no column comes near the %.1f %% wanted; %s the band at the closure, or take a closure of another length", c.Wanted, map[bool]string{true: "shorten", false: "lengthen"}[near.Reduction < c.Wanted])
	if near.Column != w.Column && out.Verdict != check.Broken {
		out.Verdict = check.Look
		remedy = fmt.Sprintf("column %d comes nearer to the %.1f %% wanted, with %.1f %%", near.Column, c.Wanted, near.Reduction)
		if near.Column > w.Column {
			remedy += "; a new band is worn in the loosest column, to be drawn in as it grows, so rather shorten it"
		}
	}
	return out.Remedied(remedy)
}

func lessThan(reduction float64) string {
	if reduction < 0 {
		return fmt.Sprintf("%.1f %% more than", -reduction)
	}
	return fmt.Sprintf("%.1f %% less than", reduction)
}

// band checks each piece of the hem that gives: what it stretches against how
// far the body stretches it.
func (c Closing) band(g cloth.Goods, p pattern.Pattern, b Bounds) []check.Check {
	var out []check.Check
	seen := map[string]bool{}
	for _, l := range p.Lines {
		if l.Kind != pattern.LineHem {
			continue
		}
		for _, pt := range l.Parts {
			pc, layers := p.Piece(pt.Piece), g.Layers(pt.Piece)
			if pc == nil || pc.Arrow.Kind != pattern.MostStretch || len(layers) == 0 || seen[pc.Name] {
				continue
			}
			seen[pc.Name] = true
			gives, asked := together(g, layers, pc, pc.Arrow.To.Sub(pc.Arrow.From).Direction()), c.worn().Band
			ch := check.Check{ID: BandStrain, Piece: pc.Name, Edge: pt.Edge, Line: l.Name, Unit: "%", Measured: gives - asked, Allowed: fmt.Sprintf("at least %g %% to spare, look from %g %%", b.Spare.Holds, b.Spare.Look), Verdict: b.Spare.Least(gives - asked)}
			ch.Text = fmt.Sprintf("Worn, %s is stretched by %.1f %% (the firm parts do not stretch); %s can be stretched by %.0f %%", pc.Name, asked, names(layers), gives)
			out = append(out, ch.Remedied("it would have little or nothing to spare; lengthen it, or take a cloth that stretches more"))
		}
	}
	return out
}
