package pattern

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"truemat/geom"
)

// Limits against files made to keep a machine busy; far above real patterns.
const (
	maxNameRunes = 80
	maxTextRunes = 400
	maxSizes     = 200
	maxPieces    = 500
	maxEdges     = 500  // of a piece
	maxSegments  = 5000 // of a path
	maxThings    = 2000 // notches, inner lines and marks of a piece; seams; lines; parts; figures
	maxCount     = 1000 // of a cut, its layers, a line
)

// MaxAllowance is the widest allowance accepted, in mm.
const MaxAllowance = 200

// Validate returns nil when the run can be worked with: each size is valid
// and all have the same pieces, edges, seams and lines. Otherwise the error
// names the size and the place. Outlines that cross themselves are accepted
// here; a check tells of them.
func (r Run) Validate() error {
	if r.Name != "" {
		if err := checkName("the pattern", r.Name); err != nil {
			return err
		}
	}
	if err := atMost("sizes", len(r.Sizes), maxSizes); err != nil {
		return err
	}
	if len(r.Sizes) == 0 {
		return errors.New("the pattern has no size; it needs at least one")
	}
	if err := uniqueNames("size", r.Labels()); err != nil {
		return err
	}
	for _, s := range r.Sizes {
		if err := checkText("the band or cup of size "+s.Label, s.Band+s.Cup); err != nil {
			return err
		}
		if err := s.Pattern.Validate(); err != nil {
			return fmt.Errorf("size %s: %w", s.Label, err)
		}
		if err := sameStructure(r.Sizes[0], s); err != nil {
			return err
		}
	}
	return r.validateFit()
}

// sameStructure compares the names of pieces, edges, seams and lines.
func sameStructure(a, b Size) error {
	differ := func(what string, x, y []string) error {
		if slices.Equal(x, y) {
			return nil
		}
		return fmt.Errorf("size %s has the %s %s, but size %s has %s; all sizes need the same, in the same order", a.Label, what, quoted(x), b.Label, quoted(y))
	}
	if err := differ("pieces", a.Pattern.pieceNames(), b.Pattern.pieceNames()); err != nil {
		return err
	}
	for i := range a.Pattern.Pieces {
		x, y := &a.Pattern.Pieces[i], &b.Pattern.Pieces[i]
		if err := differ("edges of "+x.Name, x.edgeNames(), y.edgeNames()); err != nil {
			return err
		}
	}
	if err := differ("seams", a.Pattern.seamNames(), b.Pattern.seamNames()); err != nil {
		return err
	}
	return differ("lines", a.Pattern.lineNames(), b.Pattern.lineNames())
}

// Validate returns nil when the pattern can be worked with; otherwise an
// error that names the piece and the place.
func (p Pattern) Validate() error { return p.ValidateAfter(Pattern{}) }

// ValidateAfter is Validate for a pattern that was made of one that is valid:
// pieces that are the same in both are not looked into again.
func (p Pattern) ValidateAfter(before Pattern) error {
	if err := atMost("pieces", len(p.Pieces), maxPieces); err != nil {
		return err
	}
	if len(p.Pieces) == 0 {
		return errors.New("the pattern has no piece")
	}
	if err := uniqueNames("piece", p.pieceNames()); err != nil {
		return err
	}
	for i := range p.Pieces {
		pc := &p.Pieces[i]
		if b := before.Piece(pc.Name); b != nil && pc.same(b) {
			continue
		}
		if err := pc.validate(); err != nil {
			return fmt.Errorf("piece %q: %w", pc.Name, err)
		}
	}
	if err := p.validateSeams(); err != nil {
		return err
	}
	if err := p.validateLines(); err != nil {
		return err
	}
	if err := atMost("figures", len(p.Figures), maxThings); err != nil {
		return err
	}
	for _, name := range slices.Sorted(maps.Keys(p.Figures)) {
		v := p.Figures[name]
		if err := checkName("a figure", name); err != nil {
			return err
		}
		if !finite(v) {
			return fmt.Errorf("figure %q: %g is not a sensible number", name, v)
		}
	}
	return nil
}

func (p Pattern) validateSeams() error {
	if err := atMost("seams", len(p.Seams), maxThings); err != nil {
		return err
	}
	if err := uniqueNames("seam", p.seamNames()); err != nil {
		return err
	}
	for _, s := range p.Seams {
		if err := p.validateParts(s.A); err != nil {
			return fmt.Errorf("seam %q, first side: %w", s.Name, err)
		}
		if err := p.validateParts(s.B); err != nil {
			return fmt.Errorf("seam %q, second side: %w", s.Name, err)
		}
		if s.Press != "" && !slices.Contains(Presses, s.Press) {
			return fmt.Errorf("seam %q: it cannot be pressed to %q; there are %s", s.Name, s.Press, quotedAll(Presses))
		}
		if !finite(s.Ease) {
			return fmt.Errorf("seam %q: the ease %g is not a sensible length", s.Name, s.Ease)
		}
		if err := p.validateStretches(s); err != nil {
			return fmt.Errorf("seam %q: %w", s.Name, err)
		}
	}
	return nil
}

func (p Pattern) validateLines() error {
	if err := atMost("lines", len(p.Lines), maxThings); err != nil {
		return err
	}
	if err := uniqueNames("line", p.lineNames()); err != nil {
		return err
	}
	for _, l := range p.Lines {
		if !slices.Contains(lineKinds, l.Kind) {
			return fmt.Errorf("line %q: there is no kind %q; there are %s", l.Name, l.Kind, quotedAll(lineKinds))
		}
		if l.Count < 0 || l.Count > maxCount {
			return fmt.Errorf("line %q: a count of %d is not between 0 and %d", l.Name, l.Count, maxCount)
		}
		if err := p.validateParts(l.Parts); err != nil {
			return fmt.Errorf("line %q: %w", l.Name, err)
		}
	}
	return nil
}

func (p Pattern) validateParts(parts []Part) error {
	if len(parts) == 0 {
		return errors.New("it names no edge")
	}
	if err := atMost("parts", len(parts), maxThings); err != nil {
		return err
	}
	for _, pt := range parts {
		pc, e := p.Edge(pt.Piece, pt.Edge)
		switch {
		case pc == nil:
			return fmt.Errorf("there is no piece %q; there are %s", pt.Piece, quoted(p.pieceNames()))
		case e == nil:
			return fmt.Errorf("piece %q has no edge %q; it has %s", pt.Piece, pt.Edge, quoted(pc.edgeNames()))
		case !(pt.From >= 0 && pt.From <= 1 && pt.To >= 0 && pt.To <= 1):
			return fmt.Errorf("the part of %s of %s goes from %g to %g; shares of an edge lie between 0 and 1", pt.Edge, pt.Piece, pt.From, pt.To)
		case p.PartLength(pt) <= geom.Coincident:
			return fmt.Errorf("the part of %s of %s from %g to %g has no length", pt.Edge, pt.Piece, pt.From, pt.To)
		}
	}
	return nil
}

func (pc *Piece) validate() error {
	if err := atMost("notches, inner lines and marks", len(pc.Notches)+len(pc.Inner)+len(pc.Marks), maxThings); err != nil {
		return err
	}
	if err := pc.validateEdges(); err != nil {
		return err
	}
	if err := uniqueNames("notch", pc.notchNames()); err != nil {
		return err
	}
	if err := uniqueNames("inner line", pc.innerNames()); err != nil {
		return err
	}
	for _, n := range pc.Notches {
		if err := pc.validateNotch(n); err != nil {
			return fmt.Errorf("notch %q: %w", n.Name, err)
		}
	}
	for _, in := range pc.Inner {
		if !slices.Contains(innerKinds, in.Kind) {
			return fmt.Errorf("inner line %q: there is no kind %q; there are %s", in.Name, in.Kind, quotedAll(innerKinds))
		}
		if in.Path.Empty() {
			return fmt.Errorf("inner line %q has no path", in.Name)
		}
		if err := atMost("segments of inner line "+in.Name, in.Path.Len(), maxSegments); err != nil {
			return err
		}
	}
	for _, m := range pc.Marks {
		if err := checkText("a mark", m.Text); err != nil {
			return err
		}
		if strings.TrimSpace(m.Text) == "" {
			return errors.New("a mark needs some text")
		}
		if !m.At.Finite() || !(m.Height > 0 && m.Height <= geom.Reach) {
			return fmt.Errorf("mark %q: it needs a place and a height above 0", m.Text)
		}
	}
	return pc.validateMakeUp()
}

// validateMakeUp looks at arrow, cut and pose.
func (pc *Piece) validateMakeUp() error {
	a := pc.Arrow
	switch {
	case !slices.Contains(arrowKinds, a.Kind):
		return fmt.Errorf("the arrow: there is no kind %q; there are %s", a.Kind, quotedAll(arrowKinds))
	case !a.From.Finite() || !a.To.Finite() || !(a.From.Dist(a.To) > geom.Coincident):
		return errors.New("the arrow needs two different ends")
	case pc.Cut.Count < 1 || pc.Cut.Count > maxCount:
		return fmt.Errorf("it is cut %d times; between 1 and %d are possible", pc.Cut.Count, maxCount)
	case pc.Cut.Layers < 0 || pc.Cut.Layers > maxCount:
		return fmt.Errorf("%d layers are not between 0 and %d", pc.Cut.Layers, maxCount)
	}
	if err := checkText("the cloth", pc.Cut.Cloth); err != nil {
		return err
	}
	if !isMotion(pc.Pose) || !pc.Pose.Apply(geom.Point{}).Finite() {
		return errors.New("its pose on the mat is missing or beyond every mat")
	}
	return nil
}

func (pc *Piece) validateEdges() error {
	if err := atMost("edges", len(pc.Edges), maxEdges); err != nil {
		return err
	}
	if len(pc.Edges) < 2 {
		return fmt.Errorf("it has %d edges; an outline needs at least two", len(pc.Edges))
	}
	if err := uniqueNames("edge", pc.edgeNames()); err != nil {
		return err
	}
	fold := ""
	for i := range pc.Edges {
		e := &pc.Edges[i]
		if err := e.validate(); err != nil {
			return fmt.Errorf("edge %q: %w", e.Name, err)
		}
		if e.Role == Fold {
			if fold != "" {
				return fmt.Errorf("edges %q and %q are both on the fold; a piece has one fold", fold, e.Name)
			}
			fold = e.Name
		}
	}
	for i := range pc.Edges {
		e, next := &pc.Edges[i], &pc.Edges[pc.Next(i)]
		if gap := e.Path.End().Dist(next.Path.Start()); !(gap <= geom.Coincident) {
			return fmt.Errorf("edge %q ends %.3g mm from where %q starts; the outline must be closed", e.Name, gap, next.Name)
		}
	}
	o, err := pc.Outline()
	if err != nil {
		return err
	}
	if a := o.Area(); !(a > 0) {
		return fmt.Errorf("its outline runs clockwise or encloses nothing (area %.4g mm²); edges run counter-clockwise", a)
	}
	return nil
}

func (e *Edge) validate() error {
	switch {
	case !slices.Contains(Roles, e.Role):
		return fmt.Errorf("there is no role %q; there are %s", e.Role, quotedAll(Roles))
	case e.Path.Empty():
		return errors.New("it has no path")
	case e.Path.Closed():
		return errors.New("its path is closed; an edge runs from one joint to the next")
	case e.Path.Len() > maxSegments:
		return atMost("segments", e.Path.Len(), maxSegments)
	case !(e.Allowance >= 0 && e.Allowance <= MaxAllowance):
		return fmt.Errorf("an allowance of %g mm is not between 0 and %d mm", e.Allowance, MaxAllowance)
	case e.Role == Fold && e.Allowance != 0:
		return fmt.Errorf("it lies on the fold and cannot have an allowance (%g mm)", e.Allowance)
	case e.Role == DartEdge && e.Allowance != 0:
		return fmt.Errorf("the cloth of a dart is folded and cannot have an allowance (%g mm); make it a seam edge to cut it out", e.Allowance)
	case e.Role == Fold && !e.Path.IsStraight():
		return errors.New("it lies on the fold and must be one straight segment")
	case e.Corner.End != "" && !slices.Contains(CornerEnds, e.Corner.End):
		return fmt.Errorf("there is no corner end %q; there are %s", e.Corner.End, quotedAll(CornerEnds))
	case e.Corner.Of != "" && e.Corner.Of != Before && e.Corner.Of != After:
		return fmt.Errorf("a corner end is of the edge %q or %q, not %q", Before, After, e.Corner.Of)
	case e.Corner.Of == "" && e.Corner.NeedsOf():
		return fmt.Errorf("the corner end %q must say of which edge: %q or %q", e.Corner.End, Before, After)
	}
	return nil
}

// NeedsOf reports whether the end must say of which edge it is.
func (c Corner) NeedsOf() bool {
	return c.End == Square || c.End == FoldsBack || c.End == Follows || c.End == FadesOut
}

func (pc *Piece) validateNotch(n Notch) error {
	e := pc.Edge(n.Edge)
	switch {
	case e == nil:
		return fmt.Errorf("there is no edge %q; there are %s", n.Edge, quoted(pc.edgeNames()))
	case n.From != "" && n.From != Start && n.From != End:
		return fmt.Errorf("a place is held from %q or %q, not %q", Start, End, n.From)
	}
	length := e.Length()
	if at := n.At(length); !(at >= -mapSlack && at <= length+mapSlack) {
		return fmt.Errorf("%.6g mm from the start lies off edge %q, which is %.6g mm long", at, n.Edge, length)
	}
	return nil
}

func atMost(what string, n, most int) error {
	if n > most {
		return fmt.Errorf("%d %s are more than the %d that can be handled", n, what, most)
	}
	return nil
}

// uniqueNames checks that names are usable and all different.
func uniqueNames(what string, names []string) error {
	seen := make(map[string]bool, len(names))
	for _, n := range names {
		if err := checkName("a "+what, n); err != nil {
			return err
		}
		if seen[n] {
			return fmt.Errorf("two of them are called %s %q; names must differ", what, n)
		}
		seen[n] = true
	}
	return nil
}

// checkName accepts a name that can be shown, typed and told apart.
func checkName(what, name string) error {
	switch {
	case name == "":
		return fmt.Errorf("%s has no name", what)
	case utf8.RuneCountInString(name) > maxNameRunes:
		return fmt.Errorf("%s: the name %q… is longer than %d characters", what, string([]rune(name)[:20]), maxNameRunes)
	case !utf8.ValidString(name) || strings.ContainsFunc(name, unicode.IsControl):
		return fmt.Errorf("%s: the name %q has characters that cannot be shown", what, name)
	case strings.TrimSpace(name) != name:
		return fmt.Errorf("%s: the name %q has blanks at its ends", what, name)
	}
	return nil
}

// checkText accepts free text, which may be empty.
func checkText(what, text string) error {
	switch {
	case utf8.RuneCountInString(text) > maxTextRunes:
		return fmt.Errorf("%s: the text is longer than %d characters", what, maxTextRunes)
	case !utf8.ValidString(text) || strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\n' }):
		return fmt.Errorf("%s: the text %q has characters that cannot be shown", what, text)
	}
	return nil
}

func finite(v float64) bool { return math.Abs(v) <= geom.Reach }

// isMotion tells a motion from the zero value, which takes everything to one point.
func isMotion(m geom.Motion) bool {
	return math.Abs(m.Vector(geom.Pt(1, 0)).Norm()-1) < mapSlack
}
