package lesson

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"truemat/geom"
	"truemat/ops/check"
	"truemat/ops/pattern"
	"truemat/ops/step"
	"truemat/ops/unit"
)

// Lesson is a piece of work to be done with one's own hands, act by act.
type Lesson struct {
	Title string
	Steps []Act
	End   string // told when all of it is done
	// Fits reports whether it can be done on a pattern that came in so.
	Fits func(source pattern.Pattern) bool
}

// Lessons returns all lessons, in the order in which they build on each other.
func Lessons() []Lesson { return []Lesson{First(), Second()} }

// Act is one thing to do.
type Act struct {
	Title string
	Text  string // what to do, in plain words
	Keys  string // how it is done without a mouse
	// Aside tells what is to be known about the state of the work before the
	// act is done, "" when there is nothing; it may be nil.
	Aside func(s Stage) string
	Tool  string // name of the tool to take
	// Where are the places to show, in mm on the mat; none when the pieces
	// it is about are not there.
	Where func(p pattern.Pattern) []geom.Point
	// Stay keeps the places shown while something is proposed already.
	Stay bool
	// Done reports whether a step did it, from the stages before and after it.
	Done func(before, after Stage) bool
	// Do is a step that does it, for who wants to be shown; nil when it
	// cannot be done on this stage.
	Do func(s Stage) step.Step
}

// Stage is the pattern in the size shown, after the first steps of a recipe.
type Stage struct {
	Source  pattern.Pattern // as it came in
	Pattern pattern.Pattern
	Recipe  step.Recipe // the steps up to here; the last one led here
}

// Names of the demo pattern that the lesson speaks of.
const (
	bridge, cradle, band = "bridge", "cradle", "band"
	hem, sideSeam        = "hem", "side seam"
	ofBridge, ofCradle   = "cradle seam", "bridge seam"
	taped                = "frame"
	markText             = "ALTERED · LACE"
	smoothOver           = 0.16            // reach to each side of the joint, share of the wire edge
	beside               = 0.12            // of an edge: so far from its end a press takes no other edge
	near                 = 0.05            // mm within which two places count as one: less than can be cut
	leastKink            = 3 * geom.Degree // a turn that shows as a corner
)

// First returns the lesson for the demo pattern: bridge and cradle become one
// piece with a straight hem, and what that took comes back at the side seam.
func First() Lesson {
	return Lesson{Title: "A straight hem, by hand", Fits: Fits, End: "That was the whole alteration, and every step of it can still be altered below. The hem is as long as it was in every size, to 0.2 mm. Save it with Ctrl + S. Print it with Ctrl + P, or by File > Print, now or when what is named below is mended.", Steps: []Act{
		{
			Title: "Lay the cradle against the bridge",
			Text:  "Take the hand. Take hold of the cradle's corner at 1 and drag it to the bridge's corner at 2, where the seam between them meets the wire line. They snap together; let go there, no Enter is needed.",
			Keys:  "N goes from piece to piece: at the cradle press Space. Tab, pressed three times, goes to \"Lay it\"; there Space opens the list, the arrows choose against cradle seam of bridge, together at the wire, and Enter takes it. Enter once more accepts.",
			Tool:  "hand",
			Where: func(p pattern.Pattern) []geom.Point { return spots(p, cradlePin.Spot(), bridgePin.Spot()) },
			Done:  func(_, after Stage) bool { return pinned(after.Pattern) },
			Do: func(s Stage) step.Step {
				return &step.Place{Piece: cradle, Edge: ofCradle, End: pattern.Start, Onto: &bridgePin}
			},
		},
		{
			Title: "Pin it and turn it to the line of the hem",
			Text:  "Take the pin and press the corner at 1, where the two meet at the wire line. Then drag the cradle by the end of its hem, at 2, down to the line of the bridge's hem: it settles there. Accept with Enter.",
			Keys:  "I takes the pin. N and Space go into the cradle, at its corner of wire and bridge seam; Space sets the pin. Tab, pressed three times, goes to \"Stop where\"; choose corner of hem and side seam lies on the line. Enter accepts.",
			Tool:  "pin",
			Where: func(p pattern.Pattern) []geom.Point { return spots(p, cradlePin.Spot(), hemEnd) },
			Done:  turned,
			Do: func(Stage) step.Step {
				return &step.Turn{
					Piece: cradle, Pin: cradlePin.Spot(), Direction: step.Clockwise,
					Until: &step.Until{Spot: &hemEnd, Datum: &hemLine},
				}
			},
		},
		{
			Title: "Tape the two together",
			Text:  "Take the tape. Press the bridge's edge at 1, then the cradle's edge at 2. At the hem the two overlap; that is meant. What the tape takes there is remembered, to be given back in act 6. Accept with Enter.",
			Keys:  "T takes the tape. Space at once takes the two edges that meet; Enter accepts.",
			Tool:  "tape",
			Where: func(p pattern.Pattern) []geom.Point {
				return spots(p, part(bridge, ofBridge, beside), part(cradle, ofCradle, 0.5))
			},
			Done: func(before, after Stage) bool {
				return frame(before.Pattern) == nil && frame(after.Pattern) != nil
			},
			Do: func(Stage) step.Step {
				return &step.Tape{A: bridgePin, B: cradlePin, Name: taped, Datum: &hemLine}
			},
		},
		{
			Title: "Rule the hem straight",
			Text:  "Take the ruler and drag from one end of the taped piece's hem, at 1, to the other, at 2. Under \"The edge is\" choose lace edge: the straight border of a lace will be the finished hem, so its allowance becomes nothing. Accept with Enter.",
			Keys:  "R takes the ruler. N and Space go into the frame, where Space takes one end of its hem; N, pressed until the other end is named, leads there, P back; Space takes it. Tab, pressed once, goes to \"The edge is\"; choose lace edge. Enter accepts.",
			Tool:  "ruler",
			Aside: both(notYetLace, both(hemInParts, hemShort("act 6 gives it back, as acts 4 and 5 take the corners away"))),
			Where: func(p pattern.Pattern) []geom.Point { return ends(frameEdge(p, pattern.LineHem)) },
			Done: func(_, after Stage) bool {
				e := frameEdge(after.Pattern, pattern.LineHem)
				return e != nil && hemParts(after.Pattern) == 1 && straight(e.edge.Path) && e.edge.Role == pattern.LaceEdge && e.edge.Allowance == 0
			},
			Do: func(s Stage) step.Step {
				e := frameEdge(s.Pattern, pattern.LineHem)
				if e == nil {
					return nil
				}
				nought := step.Lit(0)
				return &step.Straighten{
					Piece: e.piece.Name, Name: e.edge.Name, Role: pattern.LaceEdge, Allowance: &nought,
					From: pattern.AtEnd(e.piece.Name, e.edge.Name, pattern.Start),
					To:   pattern.AtEnd(e.piece.Name, e.edge.Name, pattern.End),
				}
			},
		},
		{
			Title: "Smooth the wire line",
			Text:  "Where the two were taped the wire line has a corner, and no wire lies in a corner. Take the smoothing tool and press that corner, at 1. \"Keep its length\" says yes: the same wire must still fit. Accept with Enter.",
			Keys:  "S takes the smoothing tool. Space takes the corner in the wire line. Enter accepts.",
			Tool:  "smooth",
			Aside: hemShort("act 6 gives it back, as this act takes the corner away"),
			Where: func(p pattern.Pattern) []geom.Point { return corners(frameEdge(p, pattern.LineWire)) },
			Done:  smoothed,
			Do:    smoothing,
		},
		{
			Title: "Give back what the joint took",
			Text:  "The overlap made the hem too short for the body. Take add and pick the overlap under \"Share out\". Then press the side seam of the taped piece near the hem, at 1, and that of the band, at 2: each gets half. Accept with Enter.",
			Keys:  "A takes add. Tab, pressed once, goes to \"Share out\"; choose the overlap. N and Space go into the frame, at its side seam; Space takes it, at the hem, and Space once more the band's edge sewn to it. Enter accepts.",
			Tool:  "add",
			Aside: hemShort("this act gives it back"),
			Where: func(p pattern.Pattern) []geom.Point {
				f := frame(p)
				if f == nil {
					return nil
				}
				return spots(p, part(f.Name, sideSeam, beside), part(band, sideSeam, 1-beside))
			},
			Done: sharedOut,
			Do:   sharing,
		},
		{
			Title: "Mark what was altered",
			Text:  "Take the chalk, press the taped piece at 1, then the band at 2 with Shift held, and accept with Enter. Then both say that they are altered, and nobody takes them for the original.",
			Keys:  "K takes the chalk. N and Space take the frame, N and Space the band; or Tab, pressed four times, goes to \"Choose\"; take all that are altered. Enter accepts.",
			Tool:  "chalk",
			Aside: both(sidesApart, unmarked("this act writes it")),
			Stay:  true,
			Where: func(p pattern.Pattern) []geom.Point {
				f, b := frame(p), p.Piece(band)
				if f == nil || b == nil {
					return nil
				}
				return []geom.Point{within(f), within(b)}
			},
			Done: func(_, after Stage) bool {
				f, b, was := frame(after.Pattern), after.Pattern.Piece(band), after.Source.Piece(band)
				return f != nil && b != nil && was != nil && len(f.Marks) > 0 && len(b.Marks) > len(was.Marks)
			},
			Do: func(s Stage) step.Step {
				f := frame(s.Pattern)
				if f == nil || s.Pattern.Piece(band) == nil {
					return nil
				}
				return &step.Mark{Pieces: []string{f.Name, band}, Text: markText}
			},
		},
	}}
}

// Fits reports whether the first lesson can be done on a pattern that came in so.
func Fits(source pattern.Pattern) bool {
	s := Stage{Source: source, Pattern: source}
	return len(spots(source, cradlePin.Spot(), bridgePin.Spot(), hemEnd)) == 3 && !pinned(s.Pattern) && hemLength(source) > 0 &&
		source.Seam(sideSeam) != nil && source.Piece(band) != nil
}

// Where the lesson begins: the ends of the seam at the wire line, the end of
// the cradle's hem, and the line of the bridge's.
var (
	bridgePin = step.EdgeEnd{Piece: bridge, Edge: ofBridge, End: pattern.End}
	cradlePin = step.EdgeEnd{Piece: cradle, Edge: ofCradle, End: pattern.Start}
	hemEnd    = pattern.AtEnd(cradle, hem, pattern.End)
	hemLine   = pattern.LineThrough(pattern.AtEnd(bridge, hem, pattern.Start), pattern.AtEnd(bridge, hem, pattern.End))
)

// part is the place at a share of an edge.
func part(piece, edge string, share float64) pattern.Spot {
	return pattern.Spot{Piece: piece, Edge: edge, Along: pattern.Along{Share: share}}
}

// hemShort tells that the hem is too short for now, that it is meant, and when
// that is mended.
func hemShort(when string) func(Stage) string {
	return func(s Stage) string {
		was, is := hemLength(s.Source), hemLength(s.Pattern)
		if frame(s.Pattern) == nil || was-is <= check.Defaults().HemLength.Holds {
			return ""
		}
		mm := func(v float64) string { return unit.Format(v, unit.Millimetres) }
		return fmt.Sprintf("The hem is %s now, %s shorter than it was, since the two were taped over each other. That is expected, and %s; until then every size shows a red sign.", mm(is), mm(was-is), when)
	}
}

// sidesApart tells by how much the sides of the side seam differ since they
// grew, and what is done about it.
func sidesApart(s Stage) string {
	f := frame(s.Pattern)
	_, b := s.Pattern.Edge(band, sideSeam)
	if f == nil || b == nil {
		return ""
	}
	mm := func(v float64) string { return unit.Format(v, unit.Millimetres) }
	a := f.Edge(sideSeam).Length()
	if math.Abs(a-b.Length()) <= check.Defaults().Seam.Holds {
		return ""
	}
	return fmt.Sprintf("The side seam is %s long on the %s and %s on the band now, %s apart: what was added runs at another slant on each. Level makes them alike: take it, press the seam, accept. Or leave it to be eased in while sewing.",
		mm(a), f.Name, mm(b.Length()), mm(math.Abs(a-b.Length())))
}

// both tells one thing and the other.
func both(a, b func(Stage) string) func(Stage) string {
	return func(s Stage) string { return strings.TrimSpace(a(s) + " " + b(s)) }
}

// notYetLace tells that the hem was ruled straight but left what it was.
func notYetLace(s Stage) string {
	e := frameEdge(s.Pattern, pattern.LineHem)
	if e == nil || hemParts(s.Pattern) > 1 || !straight(e.edge.Path) || e.edge.Role == pattern.LaceEdge && e.edge.Allowance == 0 {
		return ""
	}
	return fmt.Sprintf("The hem is straight, but it is a %s with %s of allowance, not a lace edge without. Press it with the allowance tool and choose lace edge there, or take the ruling back by Undo.",
		e.edge.Role.Word(), unit.Format(e.edge.Allowance, unit.Millimetres))
}

// hemInParts tells that only a part of the hem was ruled.
func hemInParts(s Stage) string {
	if hemParts(s.Pattern) < 2 {
		return ""
	}
	return "The hem is in parts now, since the ruler did not reach from one of its ends, at 1, to the other, at 2. Take it back by Undo and drag over all of it."
}

// unmarked tells that a yellow sign is for what is altered without saying so,
// and when that is mended.
func unmarked(when string) func(Stage) string {
	return func(s Stage) string {
		for _, c := range check.Run(s.Source, s.Pattern, check.Defaults()) {
			if c.ID == check.AlteredMark && c.Verdict != check.Holds {
				return "That pieces are altered and carry no mark is yellow in every size. That is expected, and " + when + "."
			}
		}
		return ""
	}
}

func sideEnd(piece string, end pattern.EndName) step.EdgeEnd {
	return step.EdgeEnd{Piece: piece, Edge: sideSeam, End: end}
}

func pinned(p pattern.Pattern) bool {
	at := spots(p, cradlePin.Spot(), bridgePin.Spot())
	return len(at) == 2 && at[0].Dist(at[1]) <= near
}

// turned reports whether the cradle is pinned to the bridge with the end of
// its hem on the line of the bridge's.
func turned(_, after Stage) bool {
	line, err := after.Pattern.FindDatum(hemLine)
	at := spots(after.Pattern, hemEnd)
	return err == nil && len(at) == 1 && pinned(after.Pattern) && math.Abs(line.Distance(at[0])) <= near
}

func smoothed(before, after Stage) bool {
	was, is := frameEdge(before.Pattern, pattern.LineWire), frameEdge(after.Pattern, pattern.LineWire)
	return was != nil && is != nil && len(corners(was)) > 0 && len(corners(is)) == 0 &&
		math.Abs(was.edge.Length()-is.edge.Length()) <= near
}

func smoothing(s Stage) step.Step {
	e := frameEdge(s.Pattern, pattern.LineWire)
	if e == nil {
		return nil
	}
	at := e.edge.Path.Corners(leastKink)
	if len(at) == 0 {
		return nil
	}
	share := 1 - at[0]/e.edge.Length()
	along := func(by float64) *pattern.Along {
		return &pattern.Along{From: pattern.End, Share: min(max(share+by, 0), 1)}
	}
	return &step.Smooth{Piece: e.piece.Name, Edge: e.edge.Name, Keep: "length", From: along(smoothOver), To: along(-smoothOver)}
}

// sharedOut reports whether the step gave an amount back at both sides of the
// side seam and the hem is as long again as it came in.
func sharedOut(_, after Stage) bool {
	f := frame(after.Pattern)
	if f == nil || len(after.Recipe) == 0 {
		return false
	}
	last := after.Recipe[len(after.Recipe)-1]
	s, ok := last.Step.(*step.ShareOut)
	if !ok || last.Off {
		return false
	}
	for _, piece := range []string{f.Name, band} {
		if !slices.ContainsFunc(s.Onto, func(on step.Share) bool { return on.Piece == piece && on.Edge == sideSeam }) {
			return false
		}
	}
	return math.Abs(hemLength(after.Pattern)-hemLength(after.Source)) <= check.Defaults().HemLength.Holds
}

func sharing(s Stage) step.Step {
	f := frame(s.Pattern)
	if f == nil {
		return nil
	}
	for _, e := range slices.Backward(s.Recipe) {
		if e.Step.Kind() == "tape" && !e.Off {
			return &step.ShareOut{
				Amount: step.Figure(e.ID+".overlap", 1),
				Onto:   []step.Share{{EdgeEnd: sideEnd(f.Name, pattern.Start)}, {EdgeEnd: sideEnd(band, pattern.End)}},
			}
		}
	}
	return nil
}
