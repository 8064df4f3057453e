package check

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/geom"
	"truemat/ops/demo"
	"truemat/ops/pattern"
)

func TestBoundHasItsEdgesInside(t *testing.T) {
	b := Bound{0.5, 1.5}
	for measured, want := range map[float64]Verdict{
		0: Holds, 0.5: Holds, -0.5: Holds, 0.51: Look, -1.5: Look, 1.51: Broken, -9: Broken,
		math.Inf(1): Broken, math.Inf(-1): Broken,
	} {
		require.Equal(t, want, b.Verdict(measured), "%g", measured)
	}
	require.Equal(t, Broken, b.Verdict(math.NaN()), "what cannot be measured does not hold")

	least := Bound{22, 18}
	for measured, want := range map[float64]Verdict{30: Holds, 22: Holds, 21.9: Look, 18: Look, 17.9: Broken, -1: Broken} {
		require.Equal(t, want, least.Least(measured), "%g", measured)
	}
	require.Equal(t, Broken, least.Least(math.NaN()))
}

func TestWorstVerdict(t *testing.T) {
	as := func(verdicts ...Verdict) []Check {
		var checks []Check
		for _, v := range verdicts {
			checks = append(checks, Check{Verdict: v})
		}
		return checks
	}
	require.Equal(t, Holds, Worst(nil))
	require.Equal(t, Holds, Worst(as(Holds, Holds)))
	require.Equal(t, Look, Worst(as(Holds, Look, Holds)))
	require.Equal(t, Broken, Worst(as(Look, Broken, Look)))
	require.Equal(t, Broken, worse(Look, Broken))
	require.Equal(t, Look, worse(Look, Holds))
}

func TestPlayOfTheWire(t *testing.T) {
	s := Subject{Bounds: Defaults()}
	for each, want := range map[float64]Verdict{2.9: Broken, 3: Look, 4.9: Look, 5: Holds, 7: Holds, 7.1: Look, -4: Broken} {
		c := play(s, Check{}, pattern.Line{Name: "wire line"}, 200+2*each, 200)
		require.Equal(t, want, c.Verdict, "%g mm of play", each)
		require.InDelta(t, each, c.Measured, 1e-9)
	}
}

func TestArrowWithoutSense(t *testing.T) {
	for _, c := range []struct{ turned, want float64 }{{0, 0}, {8, 8}, {90, 90}, {100, 80}, {180, 0}, {-172, 8}} {
		dir := (geom.Angle(c.turned) * geom.Degree).Unit()
		require.InDelta(t, c.want, lineAngle(geom.Pt(1, 0), dir), 1e-9, "%g°", c.turned)
	}
}

// tern returns the demo pattern of a middle size.
func tern(t *testing.T) pattern.Pattern {
	t.Helper()
	run, err := demo.Tern()
	require.NoError(t, err)
	size, ok := run.Size("75C")
	require.True(t, ok)
	return run.Fitted(size)
}

// verdict returns the worst verdict of the checks with that id.
func verdict(checks []Check, id string) Verdict {
	var own []Check
	for _, c := range checks {
		if c.ID == id {
			own = append(own, c)
		}
	}
	return Worst(own)
}

func TestTurnedArrowIsBrokenOnlyWhereTheClothStretches(t *testing.T) {
	before := tern(t)
	for _, c := range []struct {
		kind pattern.ArrowKind
		want Verdict
	}{{pattern.MostStretch, Broken}, {pattern.Grain, Look}} {
		after := before.Clone()
		a := &after.Piece("band").Arrow
		a.Kind = c.kind
		a.To = geom.Turn(8*geom.Degree, a.From).Apply(a.To)
		require.Equal(t, c.want, verdict(Run(before, after, Defaults()), ArrowTurned), "%s", c.kind)
	}
}

// A stretch part taped to one with a grain, whichever is named first, is cut across
// its stretch.
func TestAStretchArrowLostToAnotherIsBroken(t *testing.T) {
	before := tern(t)
	for _, kind := range []pattern.ArrowKind{pattern.MostStretch, pattern.Grain} {
		before := before.Clone()
		before.Piece("band").Arrow.Kind = kind
		after := before.Clone()
		cradle, band := after.Piece("cradle"), after.Piece("band")
		a := band.Arrow
		across := geom.Turn(90*geom.Degree, a.From).Apply(a.To)
		cradle.Arrow = pattern.Arrow{Kind: pattern.Grain, From: a.From, To: a.To}
		before.Piece("cradle").Arrow = cradle.Arrow
		cradle.Inner = append(cradle.Inner, pattern.Inner{Name: pattern.ArrowOf("band"), Kind: pattern.OldArrow, Path: geom.Must(geom.Polyline(a.From, across))})
		want := map[pattern.ArrowKind]Verdict{pattern.MostStretch: Broken, pattern.Grain: Look}[kind]
		require.Equal(t, want, verdict(Run(before, after, Defaults()), ArrowTurned), "%s", kind)
	}
}

func TestBoundsAreTheMakersToSet(t *testing.T) {
	cases, err := demo.Damaged()
	require.NoError(t, err)
	seen := map[string]bool{}
	for _, c := range cases {
		b := Defaults()
		switch c.Check {
		case WireOpening, WireDepth:
			b.WireSprings = true
		case WireLength:
			b.WireLength = Bound{1, 3}
		case ClosureHeight:
			b.Closure = Bound{1, 3}
		case HemLength:
			b.HemLength = Bound{6, 10}
		default:
			continue
		}
		seen[c.Check] = true
		require.Equal(t, Look, verdict(Run(c.Before, c.Damaged, b), c.Check), c.Name)
	}
	require.Len(t, seen, 5)
}

func TestEveryCheckTellsPlaceMeasureAndRemedy(t *testing.T) {
	cases, err := demo.Damaged()
	require.NoError(t, err)
	for _, c := range cases {
		for _, ch := range Run(c.Before, c.Damaged, Defaults()) {
			require.NotEmpty(t, ch.ID)
			require.NotEmpty(t, ch.Piece, ch.Text)
			require.NotEmpty(t, ch.Allowed, ch.Text)
			require.False(t, math.IsNaN(ch.Measured) || math.IsInf(ch.Measured, 0), ch.Text)
			require.Regexp(t, `^.*[^.]\.$`, ch.Text, "one sentence")
			if ch.Verdict != Holds {
				require.Contains(t, ch.Text, ": ", "a remedy")
			}
			_, err := json.Marshal(ch)
			require.NoError(t, err)
		}
	}
}

func TestPatternThatWasNotAlteredNeedsNoMark(t *testing.T) {
	p := tern(t)
	for _, c := range Run(p, p, Defaults()) {
		require.NotEqual(t, AlteredMark, c.ID)
		require.Equal(t, Holds, c.Verdict, c.Text)
	}
}

// What mends a hem is told by what made it longer or shorter.
func TestHemIsMendedWhereItWasAltered(t *testing.T) {
	before := tern(t)
	text := func(after pattern.Pattern) string {
		for _, c := range Run(before, after, Defaults()) {
			if c.ID == HemLength {
				return c.Text
			}
		}
		return ""
	}
	scaled := func(by float64) pattern.Pattern {
		after := before.Clone()
		e := after.Piece("band").Edge("hem")
		e.Path = geom.Must(geom.Polyline(e.Path.Start(), e.Path.Start().Lerp(e.Path.End(), by)))
		return after
	}
	require.Contains(t, text(scaled(1.1)), "take it in")
	shorter := scaled(0.9)
	require.Contains(t, text(shorter), "give it back")
	require.NotContains(t, text(shorter), "tape")
	band := shorter.Piece("band")
	band.Inner = append(band.Inner, pattern.Inner{Name: "joint", Kind: pattern.OldJoint, Path: band.Edges[0].Path})
	require.Contains(t, text(shorter), "the tape took that")
}

func TestLineThatIsGoneIsBroken(t *testing.T) {
	before := tern(t)
	for id, kind := range map[string]pattern.LineKind{WireLength: pattern.LineWire, HemLength: pattern.LineHem} {
		after := before.Clone()
		after.Lines = slices.DeleteFunc(after.Lines, func(l pattern.Line) bool { return l.Kind == kind })
		checks := Run(before, after, Defaults())
		require.Equal(t, Broken, verdict(checks, id))
		require.Condition(t, func() bool {
			return slices.ContainsFunc(checks, func(c Check) bool { return c.ID == id && strings.Contains(c.Text, "is gone") })
		})
	}
}

func TestAllowancesOfAnEasedSeamAreComparedWhereTheyMeet(t *testing.T) {
	p := tern(t)
	// The vertical seam of the cup against itself, walked at another length.
	side := p.Seam("vertical seam").B
	if len(side) == 1 {
		side = p.Seam("vertical seam").A
	}
	require.Len(t, side, 2)
	own, long := widths(p, side, p.Length(side)), widths(p, side, 1.1*p.Length(side))
	for i := range own {
		require.InDelta(t, 1.1*own[i].from, long[i].from, 1e-9)
		require.InDelta(t, 1.1*own[i].to, long[i].to, 1e-9)
		require.Equal(t, own[i].width, long[i].width)
	}
	require.InDelta(t, 1.1*p.Length(side), long[1].to, 1e-9)
}

// The sentence names the pieces whose allowances differ, and the place is on the one
// that is unlike the rest of its side.
func TestAllowancesThatDifferAreToldWithTheirPieces(t *testing.T) {
	p := tern(t)
	widen := func(pieces ...string) {
		for _, s := range p.Seams {
			for _, pt := range append(slices.Clone(s.A), s.B...) {
				if s.Name == "vertical seam" && slices.Contains(pieces, pt.Piece) {
					p.Piece(pt.Piece).Edge(pt.Edge).Allowance = 10
				}
			}
		}
	}
	find := func() Check {
		for _, c := range Run(p, p, Defaults()) {
			if c.ID == SeamAllowance && c.Seam == "vertical seam" {
				return c
			}
		}
		require.FailNow(t, "no such check")
		return Check{}
	}
	require.NotContains(t, find().Text, " on ")
	was := p.Piece("inner cup").Edge("vertical seam").Allowance
	widen("inner cup")
	require.Contains(t, find().Text, "10 mm on inner cup and "+mm(was)+" on ")
	require.Contains(t, find().Text, "lower outer cup")
	require.Contains(t, find().Text, "upper outer cup")
	require.Equal(t, "inner cup", find().Piece)
	widen("upper outer cup")
	require.Contains(t, find().Text, "differ by "+mm(10-was)+", 10 mm on inner cup and "+mm(was)+" on lower outer cup")
	require.NotContains(t, find().Text, "upper outer cup")
	require.Equal(t, "lower outer cup", find().Piece)
	widen("lower outer cup")
	require.Equal(t, Holds, find().Verdict)
}

func TestTimes(t *testing.T) {
	require.Equal(t, "once", times(1))
	require.Equal(t, "3 times", times(3))
}

// The play that the wire table wants is judged end by end.
func TestPlayOfTheWireAgainstItsTable(t *testing.T) {
	for _, c := range []struct {
		start, end, spare, measured float64
		want                        Verdict
	}{
		{6, 6, 12, 6, Holds}, {6, 6, 14, 7, Holds}, {6, 6, 14.2, 7.1, Look}, {6, 6, 9.8, 4.9, Look}, {6, 6, 6, 3, Look}, {6, 6, 5.8, 2.9, Broken},
		{4, 8, 12, 4, Holds}, {4, 8, 9, 2.5, Broken}, {8, 4, 9, 2.5, Broken}, {4, 8, 20, 8, Look}, {10, 10, 12, 6, Broken}, {2, 2, 2, 1, Holds}, {2, 2, 1.8, 0.9, Broken},
	} {
		p := pattern.Pattern{Figures: map[string]float64{pattern.FigurePlayStart: c.start, pattern.FigurePlayEnd: c.end}}
		got := play(Subject{After: p, Bounds: Defaults()}, Check{}, pattern.Line{Name: "wire line"}, 200+c.spare, 200)
		require.Equal(t, c.want, got.Verdict, "%v: %s", c, got.Text)
		require.InDelta(t, c.measured, got.Measured, 1e-9, "%v: %s", c, got.Text)
	}
}

// The hem goes round twice its half, and the closure closes it.
func TestHemAgainstTheBody(t *testing.T) {
	p := tern(t)
	hem := p.Length(p.Line("hem").Parts)
	for _, c := range []struct {
		off  float64 // per cent of the body
		want Verdict
	}{{0, Holds}, {2, Holds}, {-2, Holds}, {2.1, Look}, {-4, Look}, {4.1, Broken}, {-9, Broken}} {
		body := (2*hem + 50) / (0.9 + c.off/100)
		p.Figures = map[string]float64{pattern.FigureUnderbust: body, pattern.FigureReduction: 10, pattern.FigureFastened: 50}
		got, ok := hemBody(Subject{After: p, Bounds: Defaults()})
		require.True(t, ok)
		require.InDelta(t, c.off, got.Measured, 1e-9)
		require.Equal(t, c.want, got.Verdict, got.Text)
	}
	for _, missing := range []string{pattern.FigureUnderbust, pattern.FigureReduction} {
		was := p.Figures[missing]
		delete(p.Figures, missing)
		_, ok := hemBody(Subject{After: p, Bounds: Defaults()})
		require.False(t, ok, missing)
		p.Figures[missing] = was
	}
}
