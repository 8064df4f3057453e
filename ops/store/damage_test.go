package store

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
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
