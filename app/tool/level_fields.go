package tool

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"truemat/ops/pattern"
	"truemat/ops/unit"
)

// bends returns the choices of what changes; the first is both.
func (l *Level) bends(s *pattern.Seam) []string {
	sides := sideWords(s)
	return []string{"both sides", sides[0], sides[1]}
}

// bows tells whether straight edges can bow, and what they do.
func (l *Level) bows() Field {
	f := Field{Name: "bow", Label: "Straight edges"}
	for _, o := range levelBows {
		f.Options = append(f.Options, o.words)
		if o.bow == l.bow {
			f.Text = o.words
		}
	}
	return f
}

// Fields are the seam, what changes and how, and the limit.
func (l *Level) Fields() []Field {
	p, s := l.chosen()
	seam := Field{Name: "seam", Label: "Seam", Text: noSeamWords}
	for _, o := range p.Seams {
		seam.Options = append(seam.Options, o.Name)
	}
	if s == nil {
		return []Field{seam}
	}
	seam.Text = s.Name
	bends := l.bends(s)
	out := []Field{{Name: "bend", Label: "Changes", Text: bends[slices.Index(bendWords, l.bend)], Options: bends}}
	if l.bend == "both" {
		out = append(out, Field{Name: "share", Label: "Of that on " + bends[1], Text: strconv.FormatFloat(100*l.share, 'f', -1, 64) + " %"})
	}
	ends := Field{Name: "ends", Label: "Its ends", Options: l.endsOptions(p, s)}
	ends.Text = ends.Options[l.ends]
	out = append(out, ends)
	if levelEnds[l.ends].moves == "" {
		out = append(out, l.bows())
	}
	return append(out, Field{Name: "limit", Label: "May move at most", Text: written(l.table, l.limit)}, seam)
}

// Set takes the seam, the side that changes, the share in per cent, the ways
// of the ends, how straight edges bow, or the limit.
func (l *Level) Set(field, text string) error {
	p, s := l.chosen()
	if field == "seam" {
		var names []string
		for _, o := range p.Seams {
			names = append(names, o.Name)
		}
		o, err := picked(text, names)
		if err == nil {
			l.choose(o)
		}
		return err
	}
	if s == nil {
		return unknownField("level", field)
	}
	switch field {
	case "bend":
		bends := l.bends(s)
		o, err := picked(text, bends)
		if err != nil {
			return err
		}
		switch k := slices.Index(bends, o); {
		case k == 0 && l.bend != "both":
			l.setShare(0.5)
		case k > 0:
			l.setShare([]float64{1, 0}[k-1])
		}
		return nil
	case "share":
		v, err := typedShare(text)
		if err == nil {
			l.setShare(v)
		}
		return err
	case "ends":
		words := l.endsOptions(p, s)
		o, err := picked(text, words)
		if err == nil {
			l.ends = slices.Index(words, o)
		}
		return err
	case "bow":
		o, err := picked(text, l.bows().Options)
		switch {
		case err == nil && levelEnds[l.ends].moves != "":
			err = errors.New("straight edges stay straight where an end moves; let the ends stay first")
		case err == nil:
			l.bow = levelBows[slices.Index(l.bows().Options, o)].bow
		}
		return err
	case "limit":
		v, err := typedLength(l.table, text)
		if err == nil && !(v > 0 && v <= mostLevel) {
			err = fmt.Errorf("a limit of %s is not above 0 and at most %s", unit.MM(v), unit.MM(mostLevel))
		}
		if err == nil {
			l.limit = v
		}
		return err
	}
	return unknownField("level", field)
}

// typedShare reads a part of the whole: "40 %", or 40 for the same.
func typedShare(text string) (float64, error) {
	s := strings.ReplaceAll(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), "%")), ",", ".")
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || !(v >= 0 && v <= 100) {
		return 0, fmt.Errorf("%q is not a share; write per cent from 0 to 100, such as 40 %%", text)
	}
	return v / 100, nil
}
