package step

import (
	"maps"
	"reflect"
	"slices"
)

// named says what a field of a step names.
type named struct {
	kind NameKind
	// makes says of a struct whether its field names something that the step
	// makes; nil when it never does.
	makes func(in reflect.Value) bool
	// when says of a struct whether its field is such a name at all; nil when it
	// always is.
	when func(in reflect.Value) bool
	// on is the field of the struct that holds the piece of an edge, notch or
	// inner line, when it is not the piece that the struct or the one around it
	// names; or anyPiece.
	on string
}

// anyPiece says that the step itself finds the piece.
const anyPiece = "any"

func always(reflect.Value) bool { return true }

// whenGiven says that a field is a name of something made when another field
// of its struct is given.
func whenGiven(field string) func(reflect.Value) bool {
	return func(in reflect.Value) bool { return !in.FieldByName(field).IsZero() }
}

// whenIs says so when another field has that value.
func whenIs(field, value string) func(reflect.Value) bool {
	return func(in reflect.Value) bool { return in.FieldByName(field).String() == value }
}

var (
	aPiece   = []named{{kind: NamePiece}}
	anEdge   = []named{{kind: NameEdge}}
	aNotch   = []named{{kind: NameNotch}}
	anInner  = []named{{kind: NameInner}}
	aSeam    = []named{{kind: NameSeam}}
	newPiece = []named{{kind: NamePiece, makes: always}}
	newEdge  = []named{{kind: NameEdge, makes: always}}
	someWord = []named{} // no name: text, or one of a few words
)

// naming says of every field of text in the steps, and in what they are built
// of, what it names. A new field of text has its line here, or a test fails:
// a recipe could not be opened on a pattern with other names otherwise.
var naming = map[string][]named{
	"pattern.Spot.Piece":  aPiece,
	"pattern.Spot.Edge":   anEdge,
	"pattern.Spot.Notch":  aNotch,
	"pattern.Part.Piece":  aPiece,
	"pattern.Part.Edge":   anEdge,
	"pattern.Datum.Arrow": aPiece,
	"step.EdgeEnd.Piece":  aPiece,
	"step.EdgeEnd.Edge":   anEdge,

	"step.Allow.Piece":        aPiece,
	"step.Allow.Edge":         anEdge,
	"step.Allow.Edges":        anEdge,
	"step.Allow.Seam":         aSeam,
	"step.Copy.Piece":         aPiece,
	"step.Copy.Name":          newPiece,
	"step.CutOff.Piece":       aPiece,
	"step.CutOff.Keep":        someWord,
	"step.CutOff.Name":        newEdge,
	"step.Draw.Piece":         aPiece,
	"step.Draw.Name":          {{kind: NameInner, makes: always}},
	"step.Draw.Edge":          anEdge,
	"step.Drop.Name":          {{kind: NameNotch, makes: always, on: anyPiece}},
	"step.Drop.Cut":           someWord,
	"step.Fold.Piece":         aPiece,
	"step.Fold.Along":         anInner,
	"step.Fold.Keep":          someWord,
	"step.Fold.Name":          newEdge,
	"step.LineIt.Piece":       aPiece,
	"step.LineIt.Name":        newPiece,
	"step.LineIt.Cloth":       someWord,
	"step.LineIt.Finished":    anEdge,
	"step.LineIt.Shrink":      anEdge,
	"step.Mirror.Piece":       aPiece,
	"step.Mirror.Name":        newPiece,
	"step.Mirror.Other":       someWord,
	"pattern.NotchName.Piece": aPiece,
	"pattern.NotchName.Notch": aNotch,
	"step.Remove.Piece":       aPiece,
	"step.Remove.Inner":       anInner,
	"step.Remove.Mark":        someWord,
	"step.Remove.Line":        {{kind: NameLine}},
	"step.Rename.Piece":       aPiece,
	"step.Rename.Edge":        anEdge,
	"step.Rename.Notch":       aNotch,
	"step.Rename.Inner":       anInner,
	"step.Rename.Seam":        aSeam,
	"step.Rename.Line":        {{kind: NameLine}},
	"step.Rename.To": {
		{kind: NameEdge, makes: always, when: whenGiven("Edge")},
		{kind: NameNotch, makes: always, when: whenGiven("Notch")},
		{kind: NameInner, makes: always, when: whenGiven("Inner")},
		{kind: NameSeam, makes: always, when: whenGiven("Seam")},
		{kind: NameLine, makes: always, when: whenGiven("Line")},
		{kind: NamePiece, makes: always, when: func(in reflect.Value) bool {
			r := in.Interface().(Rename)
			return r.Edge == "" && r.Notch == "" && r.Inner == "" && r.Seam == "" && r.Line == ""
		}},
	},
	"step.Bring.From":       someWord,
	"step.Shape.Name":       newPiece,
	"step.Plain.Name":       newPiece,
	"step.Plain.Cloth":      someWord,
	"step.Reshape.Piece":    aPiece,
	"step.Reshape.Edge":     anEdge,
	"step.Reshape.Keep":     someWord,
	"step.Split.Piece":      aPiece,
	"step.Split.Left":       newPiece,
	"step.Split.Right":      newPiece,
	"step.Split.Name":       {{kind: NameSeam, makes: always}, {kind: NameEdge, makes: always, on: anyPiece}},
	"step.Unfold.Piece":     aPiece,
	"step.Unfold.Other":     someWord,
	"step.Walk.Seam":        aSeam,
	"step.Partner.Rest":     {{kind: NameEdge, makes: always, on: anyPiece}},
	"step.Partner.Notch":    {{kind: NameNotch, makes: always, on: anyPiece}},
	"step.Partner.Line":     {{kind: NameLine, makes: always}},
	"step.Level.Seam":       aSeam,
	"step.Level.Bend":       someWord,
	"step.Level.Keep":       someWord,
	"step.Level.Along":      someWord,
	"step.Level.Bow":        someWord,
	"step.Mark.Piece":       aPiece,
	"step.Mark.Pieces":      aPiece,
	"step.Mark.Text":        someWord,
	"step.Mark.Cloth":       someWord,
	"step.Move.Piece":       aPiece,
	"step.Notch.Piece":      aPiece,
	"step.Notch.Edge":       anEdge,
	"step.Notch.Seam":       aSeam,
	"step.Notch.Name":       {{kind: NameNotch, makes: whenIs("Act", string(AddNotch))}},
	"step.Place.Piece":      aPiece,
	"step.Place.Edge":       anEdge,
	"step.Sew.Name":         {{kind: NameSeam, makes: whenGiven("A")}},
	"step.SewLine.Name":     {{kind: NameLine, makes: whenGiven("Parts")}},
	"step.Smooth.Piece":     aPiece,
	"step.Smooth.Edge":      anEdge,
	"step.Smooth.Then":      anEdge,
	"step.Smooth.Keep":      someWord,
	"step.Spread.Piece":     aPiece,
	"step.Hinge.Inner":      anInner,
	"step.Closing.Dart":     aSeam,
	"step.ToLength.Edge":    anEdge,
	"step.ToLength.Seam":    aSeam,
	"step.NewDart.Name":     {{kind: NameSeam, makes: always}},
	"step.NewDart.First":    someWord,
	"step.NewDart.Second":   someWord,
	"step.Straighten.Piece": aPiece,
	"step.Straighten.Name":  newEdge,
	"step.Tape.Name":        newPiece,
	"step.Tape.Edges":       {{kind: NameEdge, on: "A"}},
	"step.True.Seam":        aSeam,
	"step.True.Hold":        someWord,
	"step.Turn.Piece":       aPiece,
	"step.Until.Touch":      anEdge,
}

func sortedNames[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
