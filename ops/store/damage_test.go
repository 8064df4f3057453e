package store

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"truemat/ops/demo"
)

func TestDamageIsToldInPlainWords(t *testing.T) {
	for text, want := range map[string]string{
		`{"format": "truemat docu`:  "it ends too early",
		`{"format": }`:              `"}" does not belong`,
		`{"format": "x" "version"}`: `"\"" does not belong`,
	} {
		err := located([]byte(text), parsed(text))
		require.ErrorContains(t, err, want)
		require.NotContains(t, err.Error(), "JSON")
		require.NotContains(t, err.Error(), "EOF")
	}
}

func parsed(text string) error {
	var v any
	return json.Unmarshal([]byte(text), &v)
}

// What a damaged document holds where is told by what a sewist calls it.
func TestDamageIsPlacedByPieceAndEdge(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	var b bytes.Buffer
	require.NoError(t, Write(&b, Document{Source: run, Recipe: demo.TernInLace()}))
	whole := b.String()
	for _, c := range []struct{ was, is, want string }{
		{`"allowance": 12`, `"allowance": "wide"`, `line 21, column 28: the allowance of edge "hem" of piece "bridge" of size "65C" is a text, and a number belongs there`},
		{`"path": "M`, `"path": "Q`, `the line of edge "hem" of piece "bridge" of size "65C" cannot be drawn`},
		{`"path": "M`, `"path": 3, "x": "M`, `the line of edge "hem" of piece "bridge" of size "65C" is a number, and a text belongs there`},
		{`"count": 1`, `"count": 1.5`, `the count of the cut of piece "bridge" of size "65C" is a number 1.5, and a whole number belongs there`},
		{`"arrow": {`, `"arrow": [{`, `in the arrow of piece "bridge" of size "65C", ":" does not belong`},
		{`"width": 0`, `"width": 0, "colour": 1`, `"colour" says nothing of step "hem-off-bridge"`},
		{`"role": "lace-edge"`, `"role": 4`, `step "hem-off-bridge" (allow): its "role" is a number, and something else belongs there`},
		{`"recipe"`, `"steps"`, `"steps" says nothing of a document`},
	} {
		require.Contains(t, whole, c.was)
		_, err := Read(strings.NewReader(strings.Replace(whole, c.was, c.is, 1)))
		require.ErrorContains(t, err, c.want)
		require.NotContains(t, err.Error(), "source.sizes")
		require.NotContains(t, err.Error(), "json:")
	}
}
