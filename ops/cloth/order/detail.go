package order

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/cloth/worn"
	"truemat/ops/pattern"
)

// Told is an act with all that is to be known for doing it, in mm.
type Told struct {
	Act
	Sentence string `json:"sentence"`
	// Title says what is done, and Details the rest of the sentence, part by part.
	Title   string   `json:"title"`
	Details []string `json:"details,omitempty"`
	// Length is what is sewn in one go; of a seam side B, side A being longer by its ease.
	Length     float64 `json:"length_mm"`
	SideA      float64 `json:"a_mm,omitempty"`
	SideB      float64 `json:"b_mm,omitempty"`
	Ease       float64 `json:"ease_mm,omitempty"`
	AllowanceA float64 `json:"allowance_a_mm,omitempty"`
	AllowanceB float64 `json:"allowance_b_mm,omitempty"`
	// Press is as it was said, or as proposed.
	Press     pattern.Press    `json:"press,omitempty"`
	Proposed  bool             `json:"press_proposed,omitempty"`
	Topstitch *cloth.Topstitch `json:"topstitch,omitempty"`
	// Under is what must lie under it before it is sewn.
	Under []Under `json:"under,omitempty"`
	// Inside says how the seam looks from inside.
	Inside *Inside `json:"inside,omitempty"`
	// Broken are sentences on the broken checks of its seam.
	Broken []string `json:"broken,omitempty"`
}

// Under is something that must lie under the needle.
type Under struct {
	What string `json:"what"`
	// Act is what lays it, when it is an act of its own.
	Act string `json:"act,omitempty"`
}

// Tell tells acts in their order: each with its numbers, what must lie under
// it and how it looks from inside, and which of these checks of its seam are
// broken.
func Tell(p pattern.Pattern, g cloth.Goods, acts []Act, checks []check.Check) []Told {
	var out []Told
	laid := map[string]bool{} // pieces whose layers lie on each other already
	for _, a := range acts {
		t := Told{Act: a, Length: length(p, a)}
		if s := p.Seam(a.Seam); s != nil && a.Kind == Join {
			t.join(p, g, *s)
		}
		t.Under = under(p, g, a, laid)
		t.Sentence = t.sentence(p, g)
		t.finish()
		for _, c := range checks {
			if c.Seam != "" && c.Seam == a.Seam && c.Verdict == check.Broken {
				t.Broken = append(t.Broken, "Broken: "+c.Found()+".")
			}
		}
		out = append(out, t)
	}
	return out
}

func (t *Told) join(p pattern.Pattern, g cloth.Goods, s pattern.Seam) {
	t.SideA, t.SideB = p.SeamLengths(s)
	t.Length, t.Ease = t.SideB, s.Ease
	t.AllowanceA, t.AllowanceB = allowance(p, s.A), allowance(p, s.B)
	t.Press, t.Proposed = Pressed(p, g, s)
	if st, ok := g.Topstitched(s.Name); ok {
		t.Topstitch = &st
	}
	if in, ok := InsideOf(p, g, s, t.Press); ok {
		t.Inside = &in
	}
}

// finish adds to the sentence what stands beside the act itself, and takes it
// apart.
func (t *Told) finish() {
	for i, d := range t.Details {
		t.Details[i] = asSentence(d)
	}
	if t.Title == "" {
		title, rest, more := strings.Cut(strings.TrimSuffix(t.Sentence, "."), ", ")
		if t.Title = title; more {
			t.Details = []string{asSentence(rest)}
		}
	}
	add := func(text string) {
		t.Sentence += " " + text
		t.Details = append(t.Details, text)
	}
	var list []string
	for _, u := range t.Under {
		list = append(list, u.What)
	}
	if len(list) > 0 {
		add("Under it lie: " + strings.Join(list, "; ") + ".")
	}
	if t.Inside != nil && t.Inside.Text != "" {
		add(t.Inside.Text)
	}
}

// asSentence begins with a capital letter and ends with a full stop.
func asSentence(text string) string {
	return strings.ToUpper(text[:1]) + strings.TrimSuffix(text[1:], ".") + "."
}

// allowance returns the widest allowance of a side of a seam.
func allowance(p pattern.Pattern, side pattern.Side) float64 {
	widest := 0.0
	for _, pt := range side {
		if _, e := p.Edge(pt.Piece, pt.Edge); e != nil {
			widest = max(widest, e.Allowance)
		}
	}
	return widest
}

// length returns how much is sewn in one go in an act.
func length(p pattern.Pattern, a Act) float64 {
	chain, count := a.chain(p)
	return p.Length(chain) * float64(count/cloth.OneGo(p, chain, count))
}

// chain returns the edges along which an act sews and how often they are in the
// garment; none for a seam.
func (a Act) chain(p pattern.Pattern) (parts []pattern.Part, count int) {
	if l := p.Line(a.Line); l != nil {
		return l.Parts, max(l.Count, 1)
	}
	pc, e := p.Edge(a.Piece, a.Edge)
	switch {
	case e == nil:
		return nil, 1
	case pc.Cut.Pair || pc.Fold() != nil:
		count = 2
	default:
		count = 1
	}
	return []pattern.Part{pattern.Whole(a.Piece, a.Edge)}, count
}

// Pressed returns to which side a seam is pressed. Where it was not said it is
// proposed (common practice): a dart whose cloth is folded towards centre front,
// or down where it lies across, never open; a seam along a wire line to the side
// that carries the channelling, others to the side on which it is thinner, and open when
// both are alike. Nothing is proposed for cloths that are not known. Proposed says
// that it was not said.
func Pressed(p pattern.Pattern, g cloth.Goods, s pattern.Seam) (press pattern.Press, proposed bool) {
	d, dart := p.FoldedDart(s)
	if s.Press != "" && !(dart && s.Press == pattern.PressedOpen) {
		return s.Press, false
	}
	if dart {
		return worn.Dart(p, d).Usual, true
	}
	a, knownA := thickness(g, s.A)
	b, knownB := thickness(g, s.B)
	switch {
	case carriesWire(p, s.A):
		return pattern.PressedToA, true
	case carriesWire(p, s.B):
		return pattern.PressedToB, true
	case !knownA || !knownB:
		return "", false
	case math.Abs(a-b) < thinner:
		return pattern.PressedOpen, true
	case a < b:
		return pattern.PressedToA, true
	}
	return pattern.PressedToB, true
}

// thinner is the difference in mm below which two cloths are as thick.
const thinner = 0.05

// thickness returns how thick the pieces of a side are at the most.
func thickness(g cloth.Goods, side pattern.Side) (mm float64, known bool) {
	for _, pt := range side {
		layers := g.Layers(pt.Piece)
		if len(layers) == 0 {
			return 0, false
		}
		sum := 0.0
		for _, c := range layers {
			sum += g.Thickness(c)
		}
		mm = max(mm, sum)
	}
	return mm, true
}

// carriesWire reports whether a wire line runs along a side of a seam.
func carriesWire(p pattern.Pattern, side pattern.Side) bool {
	return slices.ContainsFunc(p.Lines, func(l pattern.Line) bool {
		return l.Kind == pattern.LineWire && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool {
			return slices.ContainsFunc(side, func(q pattern.Part) bool { return q.Piece == pt.Piece && q.Edge == pt.Edge })
		})
	})
}

// under returns what must lie under an act, and marks the pieces whose layers
// are laid on each other in it.
func under(p pattern.Pattern, g cloth.Goods, a Act, laid map[string]bool) []Under {
	var out []Under
	switch a.Kind {
	case Join:
		for _, piece := range a.pieces {
			if u := layersOf(p, g, a, piece); u != "" && !laid[piece] {
				laid[piece] = true
				out = append(out, Under{What: u})
			}
		}
		for _, n := range a.Needs {
			if kind, name, _ := strings.Cut(n, " "); Kind(kind) == Enclose {
				out = append(out, Under{What: "the lining, turned along " + name, Act: n})
			}
		}
	case Channel, TurnBack, Enclose, Elastic, Strap, Close:
		for _, n := range a.Needs {
			kind, name, _ := strings.Cut(n, " ")
			switch Kind(kind) {
			case Join:
				if a.Kind == Channel && alongLine(p, a.Line, name) {
					out = append(out, Under{What: fmt.Sprintf("the allowances of %q, pressed", name), Act: n})
				} else {
					out = append(out, Under{What: fmt.Sprintf("the end of %q", name), Act: n})
				}
			case Channel:
				out = append(out, Under{What: "the end of the channelling of the " + name, Act: n})
			case Elastic:
				out = append(out, Under{What: "the end of " + name, Act: n})
			case TurnBack, Enclose:
				out = append(out, Under{What: "the end of " + name + ", finished", Act: n})
			}
		}
	case Wires:
		out = append(out, Under{What: "the channelling, sewn on", Act: id(Channel, a.Line)})
	}
	return out
}

// alongLine reports whether a seam runs along a line.
func alongLine(p pattern.Pattern, line, seam string) bool {
	l, s := p.Line(line), p.Seam(seam)
	return l != nil && s != nil && slices.ContainsFunc(l.Parts, func(pt pattern.Part) bool { return sews(*s, pt.Piece, pt.Edge) })
}

// layersOf says which layers of a piece lie under a seam: those handled as
// one, and those of a piece that is lined while its partner is not.
func layersOf(p pattern.Pattern, g cloth.Goods, a Act, piece string) string {
	layers := g.Layers(piece)
	if len(layers) == 0 {
		return ""
	}
	var caught []string
	for _, c := range layers[:1] {
		caught = append(caught, parts(c)...)
	}
	if s := p.Seam(a.Seam); s != nil && !BothLined(g, *s) {
		for _, c := range layers[1:] {
			caught = append(caught, parts(c)...)
		}
	}
	if len(caught) < 2 {
		return ""
	}
	return fmt.Sprintf("%s under the %s of %s, basted together", strings.Join(caught[1:], " and "), caught[0], piece)
}

func parts(c cloth.Cloth) []string {
	if len(c.Of) > 0 {
		return c.Of
	}
	return []string{c.Name}
}

// Letters gives each seam that is sewn in an act a letter, in the order in which
// the pattern has them, so that a seam keeps its letter in whatever order they
// are sewn; seams beyond the twenty-sixth have none.
func Letters(p pattern.Pattern, acts []Act) map[string]string {
	letters := map[string]string{}
	for _, s := range p.Seams {
		if len(letters) < 26 && slices.ContainsFunc(acts, func(a Act) bool { return a.Kind == Join && a.Seam == s.Name }) {
			letters[s.Name] = string(rune('A' + len(letters)))
		}
	}
	return letters
}
