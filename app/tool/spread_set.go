package tool

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"truemat/geom"
	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// Set takes what was typed or picked.
func (s *Spread) Set(field, text string) error {
	c, ok := s.cuts()
	if !ok || c.needs == needsHinge {
		return unknownField("spread", field)
	}
	word := strings.ToLower(strings.TrimSpace(text))
	switch field {
	case "amount", "degrees", "length":
		if c.needs != needsNothing {
			return unknownField("spread", field)
		}
		return s.setBy(field, text)
	case "fits":
		return s.setFits(c, text)
	case "page":
		o, err := picked(text, spreadPages)
		if err == nil {
			s.page = spreadPage(o)
		}
		return err
	case "shares":
		return s.setShares(text)
	case "fair", "hinge":
		v := 0.0
		if word != spreadOff && word != "0" && word != "" {
			var err error
			if v, err = typedReach(s.table, text); err != nil {
				return err
			}
		}
		if field == "fair" {
			s.fair = v
		} else {
			s.hinge = v
		}
		return nil
	case "fair length":
		if word == spreadFree || word == "" {
			s.length = 0
			return nil
		}
		v, err := s.typedPositive(text)
		if err == nil {
			s.length = v
		}
		return err
	case "leave":
		o, err := picked(text, []string{spreadPaper, spreadDart})
		if err == nil {
			s.leave = o == spreadDart
		}
		return err
	case "name":
		name, err := typedName(text)
		if err == nil && s.pattern().Seam(name) != nil {
			err = fmt.Errorf("there is a seam %q already; give the dart another name", name)
		}
		if err == nil {
			s.name = name
		}
		return err
	case "short":
		v, err := typedLength(s.table, text)
		if err == nil && !(v >= 0 && v <= mostReach) {
			err = fmt.Errorf("a dart's point stays short of its hinge by 0 to %s, not by %s", unit.MM(mostReach), unit.MM(v))
		}
		if err == nil {
			s.short = v
		}
		return err
	case "stays":
		parts := s.parts(c)
		o, err := picked(text, parts[:])
		if err == nil {
			s.after = o == parts[1]
		}
		return err
	case "depth":
		return s.setDepth(c, text)
	case "close":
		return s.setCloser(c, text)
	case "slides", "at", "own":
		return s.setGrip(c, field, text)
	}
	return unknownField("spread", field)
}

func (s *Spread) typedPositive(text string) (float64, error) {
	v, err := typedLength(s.table, text)
	if err == nil && !(v > 0 && v <= geom.Reach) {
		err = fmt.Errorf("a length of %s is none; write one above 0", unit.MM(v))
	}
	return v, err
}

func (s *Spread) setBy(field, text string) error {
	by, v := bySpreadAmount, 0.0
	var err error
	switch field {
	case "degrees":
		by = bySpreadDegrees
		v, err = typedAngle(text)
	case "length":
		by = bySpreadLength
		v, err = s.typedPositive(text)
	default:
		v, err = typedLength(s.table, text)
		if err == nil && math.Abs(v) > mostReach {
			err = fmt.Errorf("%s is more than a piece can be spread at once; the most is %s", unit.MM(v), unit.MM(mostReach))
		}
	}
	if err != nil {
		return err
	}
	if s.by, s.value, s.fits = by, v, ""; v == 0 {
		s.by = bySpreadNothing
	}
	if by == bySpreadLength {
		s.fit(v)
	}
	return nil
}

// setDepth lays the hinge inside, so far from the start along the slash, or
// back on the edge.
func (s *Spread) setDepth(c cuts, text string) error {
	if strings.EqualFold(strings.TrimSpace(text), spreadRim) {
		if s.inside != nil {
			s.inside, s.closing, s.at = nil, nil, spreadGrip{}
		}
		return nil
	}
	v, err := typedLength(s.table, text)
	if err != nil {
		return err
	}
	from, to := c.lines[0].from, c.pivot
	if s.inside == nil && !(v >= leastReach && v <= from.Dist(to)-leastReach) {
		return fmt.Errorf("the slash is %s long; a hinge inside lies between %s and there", unit.MM(from.Dist(to)), unit.MM(leastReach))
	}
	if !(v >= leastReach && v <= mostReach) {
		return fmt.Errorf("a hinge inside lies at least %s from the edge, and no more than %s", unit.MM(leastReach), unit.MM(mostReach))
	}
	if len(s.slashes) > 1 && s.inside == nil {
		return fmt.Errorf("several slashes have hinges of their own on the edge; begin anew for one hinge inside")
	}
	s.layHingeInside(c, from.Add(to.Sub(from).Unit().Mul(v)))
	return nil
}

func (s *Spread) setCloser(c cuts, text string) error {
	o, err := picked(text, s.closers(c))
	if err != nil {
		return err
	}
	s.closing, s.dart = nil, ""
	for _, d := range s.darts() {
		if d.Seam == o {
			s.dart, s.slashes = o, slices.Clone(s.slashes)
			for i := range s.slashes {
				s.slashes[i].to = nil
			}
			return nil
		}
	}
	if e := c.pc.Edge(o); e != nil && s.inside != nil {
		at := middleOf(c.pc, e)
		s.closing, s.at = &at, spreadGrip{what: closerGrip}
		s.walk.Reset()
	}
	return nil
}

// setShares reads how the amount is shared, as "1 : 2 : 1".
func (s *Spread) setShares(text string) error {
	if word := strings.ToLower(strings.TrimSpace(text)); word == spreadEvenly || word == "" {
		s.shares = nil
		return nil
	}
	var shares []float64
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ':' || r == ' ' || r == ';' }) {
		v, err := strconv.ParseFloat(strings.Replace(part, ",", ".", 1), 64)
		if err != nil || !(v >= 0.01 && v <= 100) {
			return fmt.Errorf("%q is no share; write one number for each slash, from 0.01 to 100, as 1 : 2", part)
		}
		shares = append(shares, v)
	}
	if len(shares) != len(s.slashes) {
		return fmt.Errorf("there are %d slashes, so write %d shares, as 1 : 2; or %s", len(s.slashes), len(s.slashes), spreadEvenly)
	}
	s.shares = shares
	return nil
}

// setGrip takes the fields of one slash.
func (s *Spread) setGrip(c cuts, field, text string) error {
	words, grips := s.grips(c)
	if field == "slides" {
		o, err := picked(text, words)
		if err == nil {
			s.at = grips[slices.Index(words, o)]
		}
		return err
	}
	i := min(s.at.slash, len(s.slashes)-1)
	v, err := typedLength(s.table, text)
	if err != nil {
		return err
	}
	if field == "own" {
		m := s.mouths(c)
		if len(s.slashes) < 2 || s.dart != "" || i >= len(m) || c.needs != needsNothing {
			return unknownField("spread", field)
		}
		if r := m[i].Stays.Dist(m[i].Hinge); !(math.Abs(v) < 2*r) {
			return fmt.Errorf("the slash is %s long and cannot open by %s; write less", unit.MM(r), unit.MM(v))
		}
		s.open(m, i, v)
		return nil
	}
	_, edge := s.pattern().Edge(c.pc.Name, s.slashes[i].from.Edge)
	if !(v >= leastReach && v <= edge.Length()-leastReach) {
		return fmt.Errorf("%s is not on %s, which is %s long, or too near its corners", unit.MM(v), edge.Name, unit.MM(edge.Length()))
	}
	s.slashes = slices.Clone(s.slashes)
	at := onEdge(c.pc, edge, v)
	at.Spot.Along = pattern.Along{MM: v}
	s.slashes[i].from = at
	return nil
}
