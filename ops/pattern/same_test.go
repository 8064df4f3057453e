package pattern

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/geom"
)

func line(t *testing.T, pts ...geom.Point) geom.Path {
	t.Helper()
	p, err := geom.Polyline(pts...)
	require.NoError(t, err)
	return p
}

// triangle is a valid piece with something in every field.
func triangle(t *testing.T) Piece {
	a, b, c := geom.Pt(0, 0), geom.Pt(90, 0), geom.Pt(40, 70)
	return Piece{
		Name: "gusset",
		Edges: []Edge{
			{Name: "hem", Role: Hem, Path: line(t, a, b), Allowance: 6, Corner: Corner{End: RunsOn}},
			{Name: "side", Role: SeamEdge, Path: line(t, b, c), Allowance: 5, Free: true},
			{Name: "back", Role: SeamEdge, Path: line(t, c, a), Allowance: 5},
		},
		Notches: []Notch{{Name: "n", Edge: "side", Along: Along{MM: 12}}},
		Inner:   []Inner{{Name: "fold", Kind: Drawn, Path: line(t, geom.Pt(30, 10), geom.Pt(50, 20))}},
		Marks:   []Mark{{Text: "left", At: geom.Pt(40, 20), Height: 6}},
		Arrow:   Arrow{Kind: Grain, From: geom.Pt(40, 10), To: geom.Pt(40, 40)},
		Cut:     Cut{Count: 1},
		Pose:    geom.Identity(),
	}
}

// Whatever is changed in a piece, it is no longer the same: a field that is
// added one day must be looked at too.
func TestAPieceChangedInAnyFieldIsNotTheSame(t *testing.T) {
	p := triangle(t)
	copied := p.Clone()
	require.True(t, p.same(&copied), "a copy hands its paths on")
	seen := 0
	for i := range reflect.TypeFor[Piece]().NumField() {
		changed := p.Clone()
		seen += eachChange(reflect.ValueOf(&changed).Elem().Field(i), func(what string) {
			require.False(t, p.same(&changed), "%s.%s", reflect.TypeFor[Piece]().Field(i).Name, what)
		})
	}
	require.Greater(t, seen, 25)
	changed := p.Clone()
	changed.Edges[0].follows = line(t, geom.Pt(0, 0), geom.Pt(1, 0))
	require.False(t, p.same(&changed))
	changed = p.Clone()
	changed.Pose = geom.Shift(geom.Pt(1, 0))
	require.False(t, p.same(&changed))
}

// eachChange changes one value after the other that lies in v, as far as they
// can be set, calls f and puts it back. It returns how many it changed.
func eachChange(v reflect.Value, f func(what string)) (n int) {
	was := reflect.New(v.Type()).Elem()
	was.Set(v)
	try := func(set func()) {
		set()
		f(v.Type().String())
		v.Set(was)
		n++
	}
	if v.Type() == reflect.TypeFor[geom.Path]() {
		try(func() { v.Set(reflect.ValueOf(v.Interface().(geom.Path).Reverse())) })
		return n
	}
	switch v.Kind() {
	case reflect.String:
		try(func() { v.SetString(v.String() + "'") })
	case reflect.Float64:
		try(func() { v.SetFloat(v.Float() + 1) })
		try(func() { v.SetFloat(math.NaN()) })
	case reflect.Int:
		try(func() { v.SetInt(v.Int() + 1) })
	case reflect.Bool:
		try(func() { v.SetBool(!v.Bool()) })
	case reflect.Slice:
		for i := range v.Len() {
			n += eachChange(v.Index(i), f)
		}
		try(func() { v.Set(v.Slice(0, v.Len()-1)) })
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				n += eachChange(v.Field(i), f)
			}
		}
	}
	return n
}

func TestWhatWasChangedIsValidatedAndWhatWasHandedOnIsNot(t *testing.T) {
	good := Pattern{Pieces: []Piece{triangle(t), triangle(t)}}
	good.Pieces[1].Name = "other gusset"
	require.NoError(t, good.Validate())
	for _, spoil := range []func(*Pattern){
		func(p *Pattern) { p.Pieces[1].Edges[0].Allowance = -1 },
		func(p *Pattern) { p.Pieces[1].Edges[0].Path = p.Pieces[1].Edges[0].Path.Reverse() },
		func(p *Pattern) { p.Pieces[0].Notches[0].MM = 1e4 },
		func(p *Pattern) { p.Pieces[0].Marks[0].Text = "" },
		func(p *Pattern) { p.Pieces[0].Name = p.Pieces[1].Name },
	} {
		bad := good.Clone()
		spoil(&bad)
		want := bad.Validate()
		require.Error(t, want)
		require.Equal(t, want, bad.ValidateAfter(good))
		require.Equal(t, bad.Pieces[0].Name == bad.Pieces[1].Name, bad.ValidateAfter(bad) != nil, "what is handed on is trusted, but two of a name are not")
	}
}
