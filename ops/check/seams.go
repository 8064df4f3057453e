package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/ops/pattern"
)

// seams checks that what is sewn together fits: length, notches, ease and
// allowances of both sides, and that every sewn edge has a partner.
func seams(s Subject) []Check {
	var out []Check
	for _, seam := range s.After.Seams {
		out = append(out, seamLength(s, seam), seamNotches(s, seam))
		if seam.Ease != 0 || len(seam.Stretches) > 0 {
			out = append(out, seamEase(s, seam))
		}
		out = append(out, seamAllowance(s, seam))
		if seam.Press != "" {
			out = append(out, seamEnds(s, seam))
		}
	}
	return append(out, partners(s)...)
}

func seamLength(s Subject, seam pattern.Seam) Check {
	a, b := s.After.Length(seam.A), s.After.Length(seam.B)
	c := Check{ID: SeamLength, Seam: seam.Name, Measured: a - b - seam.Ease, Unit: "mm"}
	if sideHasRole(s.After, seam.A, pattern.WireLine) || sideHasRole(s.After, seam.B, pattern.WireLine) {
		c.ID = CupWire
	}
	c.Piece, c.Edge = seam.A[0].Piece, seam.A[0].Edge
	ease := ""
	if seam.Ease != 0 {
		ease = fmt.Sprintf("apart from %s of ease ", mm(seam.Ease))
	}
	c.Text = fmt.Sprintf("%s: %s is %s, %s is %s, %sthey differ by %s",
		seamWords(seam.Name), sideName(seam.A), mm(a), sideName(seam.B), mm(b), ease, mm(math.Abs(c.Measured)))
	return settle(c, s.Bounds.Seam, "level the seam, or state the ease that is meant")
}

func sideHasRole(p pattern.Pattern, side pattern.Side, role pattern.Role) bool {
	for _, pt := range side {
		if _, e := p.Edge(pt.Piece, pt.Edge); e != nil && e.Role == role {
			return true
		}
	}
	return false
}

// seamWords names a seam at the start of a sentence: "Side seam", "Seam left".
func seamWords(name string) string {
	if !hasSeam(name) {
		return "Seam " + name
	}
	return strings.ToUpper(name[:1]) + name[1:]
}

// hasSeam reports whether the name of a seam says that it is one.
func hasSeam(name string) bool { return slices.Contains(strings.Fields(strings.ToLower(name)), "seam") }

func sideName(side pattern.Side) string {
	name := ""
	for i, pt := range side {
		if i > 0 {
			name += " and "
		}
		name += pt.Piece
	}
	return name
}

// seamNotches compares the notches of both sides in the order in which they
// are walked, the seam's ease spread as it is stated. A notch at an end of the
// seam says where the other side ends, and has its partner in that end.
func seamNotches(s Subject, seam pattern.Seam) Check {
	a, b := facing(s.After, seam)
	c := Check{ID: SeamNotches, Seam: seam.Name, Unit: "mm", Piece: seam.A[0].Piece, Edge: seam.A[0].Edge}
	if len(a) != len(b) {
		c.Unit, c.Measured = "", float64(len(a)-len(b))
		c.Text = fmt.Sprintf("%s has %s on %s and %d on %s", seamWords(seam.Name), notchCount(len(a)), sideName(seam.A), len(b), sideName(seam.B))
		return yes(c, false, "as many on both sides", "walk the seam and drop the one that is missing, or take out the one too many with the notch tool")
	}
	spread := s.After.Spread(seam)
	for i := range a {
		if a[i].Notch.Double != b[i].Notch.Double {
			c.Piece, c.Edge = a[i].Piece, a[i].Notch.Edge
			c.Text = fmt.Sprintf("%s: %s of %s is single on one side and double on the other", seamWords(seam.Name), pattern.NotchSaid(a[i].Notch.Name), a[i].Piece)
			return yes(c, false, "alike on both sides", "make both single or both double")
		}
		if d := spread.B(a[i].At) - b[i].At; math.Abs(d) >= math.Abs(c.Measured) {
			c.Measured = d
			c.Piece, c.Edge = a[i].Piece, a[i].Notch.Edge
		}
	}
	missed := s.Bounds.Seam.Verdict(c.Measured) != Holds
	switch off := mm(math.Abs(c.Measured)); {
	case len(a) == 0:
		c.Text = seamWords(seam.Name) + " has no notches that would have to meet"
	case len(a) == 1 && missed:
		c.Text = fmt.Sprintf("%s: its notch misses that of the other side by %s", seamWords(seam.Name), off)
	case len(a) == 1:
		c.Text = fmt.Sprintf("%s: its notch meets that of the other side within %s", seamWords(seam.Name), off)
	case missed:
		c.Text = fmt.Sprintf("%s: of its %d notches one misses that of the other side by %s", seamWords(seam.Name), len(a), off)
	default:
		c.Text = fmt.Sprintf("%s: its %d notches meet within %s", seamWords(seam.Name), len(a), off)
	}
	return settle(c, s.Bounds.Seam, "move it with the notch tool, to match the other side")
}

// Miss is a notch of each side of a seam that do not lie on each other, or are cut
// otherwise.
type Miss struct {
	A, B pattern.SeamNotch
	By   float64 // mm along the seam, never negative
}

// Missed returns the notches for which [SeamNotches] of a seam does not hold, in
// the order in which they are walked; none where one side has more of them.
func Missed(p pattern.Pattern, seam pattern.Seam, bounds Bounds) (out []Miss) {
	a, b := facing(p, seam)
	if len(a) != len(b) {
		return nil
	}
	spread := p.Spread(seam)
	for i := range a {
		by := math.Abs(spread.B(a[i].At) - b[i].At)
		if bounds.Seam.Verdict(by) != Holds || a[i].Notch.Double != b[i].Notch.Double {
			out = append(out, Miss{a[i], b[i], by})
		}
	}
	return out
}

// facing returns the notches of both sides of a seam. Where one has more of them,
// those of each at an end at which the other has none are left out (common practice:
// a notch on the longer edge shows where the shorter one, cut off there, ends).
func facing(p pattern.Pattern, seam pattern.Seam) (a, b []pattern.SeamNotch) {
	if a, b = p.SideNotches(seam.A), p.SideNotches(seam.B); len(a) == len(b) {
		return a, b
	}
	la, lb := p.Length(seam.A), p.Length(seam.B)
	atStart := func(n pattern.SeamNotch, _ float64) bool { return n.At <= pattern.PartnerSlack }
	atEnd := func(n pattern.SeamNotch, length float64) bool { return n.At >= length-pattern.PartnerSlack }
	for _, at := range []func(pattern.SeamNotch, float64) bool{atStart, atEnd} {
		onA := func(n pattern.SeamNotch) bool { return at(n, la) }
		onB := func(n pattern.SeamNotch) bool { return at(n, lb) }
		switch hasA, hasB := slices.ContainsFunc(a, onA), slices.ContainsFunc(b, onB); {
		case hasA && !hasB:
			a = slices.DeleteFunc(slices.Clone(a), onA)
		case hasB && !hasA:
			b = slices.DeleteFunc(slices.Clone(b), onB)
		}
	}
	return a, b
}

func seamEase(s Subject, seam pattern.Seam) Check {
	short := min(s.After.Length(seam.A), s.After.Length(seam.B))
	c := Check{ID: SeamEase, Seam: seam.Name, Unit: "%", Piece: seam.A[0].Piece, Edge: seam.A[0].Edge}
	if short > 0 {
		c.Measured = 100 * seam.Ease / short
	}
	c.Text = fmt.Sprintf("%s is eased by %.1f %%", seamWords(seam.Name), math.Abs(c.Measured))
	for _, st := range seam.Stretches {
		lo, hi, err := s.After.StretchOn(seam, st)
		if err != nil {
			continue
		}
		if share := 100 * st.Ease / min(hi-lo, max(hi-lo-st.Ease, sewStretch)); math.Abs(share) > math.Abs(c.Measured) {
			c.Measured = share
			c.Text = fmt.Sprintf("%s is eased by %.1f %% %s", seamWords(seam.Name), math.Abs(share), st)
		}
	}
	return settle(c, s.Bounds.Ease, "so much cannot be sewn in without puckers; shorten the longer side")
}

// seamAllowance compares the allowances along both sides, stretch by stretch.
// Where they differ it names the pieces, and it leads to the one that is unlike
// the others of its side.
func seamAllowance(s Subject, seam pattern.Seam) Check {
	c := Check{ID: SeamAllowance, Seam: seam.Name, Unit: "mm", Piece: seam.A[0].Piece, Edge: seam.A[0].Edge}
	length := s.After.Length(seam.A)
	a, b := widths(s.After, seam.A, length), widths(s.After, seam.B, length)
	var worst [2][]widthAlong
	for i, j := 0, 0; i < len(a) && j < len(b); {
		// Stretches that overlap by less than sewStretch only meet at a joint.
		if min(a[i].to, b[j].to)-max(a[i].from, b[j].from) > sewStretch {
			switch d := a[i].width - b[j].width; {
			case math.Abs(d) > math.Abs(c.Measured)+allowanceSlack:
				c.Measured = d
				worst = [2][]widthAlong{{a[i]}, {b[j]}}
			case worst[0] != nil && math.Abs(d-c.Measured) <= allowanceSlack:
				worst[0], worst[1] = append(worst[0], a[i]), append(worst[1], b[j])
			}
		}
		if a[i].to < b[j].to {
			i++
		} else {
			j++
		}
	}
	c.Text = fmt.Sprintf("%s: the allowances of its sides differ by %s", seamWords(seam.Name), mm(math.Abs(c.Measured)))
	if worst[0] != nil {
		on := worst[0][0].part
		if parts := sideOf(worst[1]); len(parts) < len(seam.B) {
			on = parts[0]
		}
		c.Piece, c.Edge = on.Piece, on.Edge
		c.Text += fmt.Sprintf(", %s on %s and %s on %s", mm(worst[0][0].width), sideName(sideOf(worst[0])), mm(worst[1][0].width), sideName(sideOf(worst[1])))
	}
	return yes(c, math.Abs(c.Measured) <= allowanceSlack, "equal", "give both sides the same allowance")
}

// sideOf lists the parts of a side, those of one edge once.
func sideOf(along []widthAlong) (side pattern.Side) {
	for _, w := range along {
		if !slices.ContainsFunc(side, func(pt pattern.Part) bool { return pt.Piece == w.part.Piece && pt.Edge == w.part.Edge }) {
			side = append(side, w.part)
		}
	}
	return side
}

// seamEnds looks whether the allowances of a seam of which it is known where it
// is pressed stay within the cut lines they then lie on.
func seamEnds(s Subject, seam pattern.Seam) Check {
	c := Check{ID: SeamEnds, Seam: seam.Name, Unit: "mm", Piece: seam.A[0].Piece, Edge: seam.A[0].Edge}
	way := "open"
	if seam.Press != pattern.PressedOpen {
		way = "to " + sideName(map[pattern.Press]pattern.Side{pattern.PressedToA: seam.A, pattern.PressedToB: seam.B}[seam.Press])
	}
	c.Text = fmt.Sprintf("%s, pressed %s: its allowances end within the pieces they lie on", seamWords(seam.Name), way)
	for _, end := range seam.Ends() {
		if out, _, ok := s.After.EndOff(end, seam.Press); ok && out > c.Measured {
			c.Measured = out
			c.Piece, c.Edge = end.Own.Piece, end.Own.Edge
			c.Text = fmt.Sprintf("%s, pressed %s: the allowance of %s sticks out by %s at its %s", seamWords(seam.Name), way, end.Own.Piece, mm(out), end.At)
		}
	}
	return settle(c, s.Bounds.SeamEnds, "match its corner ends to the way it is pressed, with the allowance tool")
}

const (
	sewStretch     = 2.0  // mm; under two stitches
	allowanceSlack = 0.01 // mm; nothing a pair of shears can follow
)

type widthAlong struct {
	part     pattern.Part
	from, to float64 // mm from the start of the side
	width    float64
}

// widths returns the allowance along a side, stretched to the length in mm of
// its seam, so that both sides of an eased seam end together.
func widths(p pattern.Pattern, side pattern.Side, length float64) []widthAlong {
	var out []widthAlong
	stretch := 1.0
	if own := p.Length(side); own > 0 {
		stretch = length / own
	}
	at := 0.0
	for _, pt := range side {
		_, e := p.Edge(pt.Piece, pt.Edge)
		if e == nil {
			continue
		}
		l := p.PartLength(pt) * stretch
		out = append(out, widthAlong{pt, at, at + l, e.Allowance})
		at += l
	}
	return out
}

// partners lists sewn edges that no seam covers whole and that are not
// declared free.
func partners(s Subject) []Check {
	var out []Check
	for _, e := range s.After.Partnered() {
		c := Check{ID: Partner, Piece: e.Piece, Edge: e.Edge, Measured: e.Bare, Unit: "mm"}
		c.Text = fmt.Sprintf("%s of %s is sewn to a partner", e.Edge, e.Piece)
		if e.Bare > pattern.PartnerSlack {
			c.Text = fmt.Sprintf("%s of %s of %s has no partner to be sewn to", mm(e.Bare), e.Edge, e.Piece)
		}
		out = append(out, yes(c, e.Bare <= pattern.PartnerSlack, "all of it", "sew it to its partner, or declare it free"))
	}
	return out
}

func notchCount(n int) string {
	if n == 1 {
		return "1 notch"
	}
	return fmt.Sprintf("%d notches", n)
}
