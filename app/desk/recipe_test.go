package desk

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/recipe"
)

func TestARecipeIsOpenedAsOneChange(t *testing.T) {
	d := tern(t)
	before := bytesOf(t, d)
	wrong, err := recipe.ParseMap("cradle=sleeve")
	require.NoError(t, err)
	require.NotEmpty(t, d.TryRecipe(demo.TernInLace(), wrong)().Lacks)
	_, err = d.OpenRecipe(demo.TernInLace(), wrong)
	var lacking *recipe.Lacking
	require.True(t, errors.As(err, &lacking))
	require.Equal(t, before, bytesOf(t, d))
	require.False(t, d.CanUndo())

	trial := d.TryRecipe(demo.TernInLace(), nil)()
	require.NoError(t, trial.Err)
	require.Empty(t, trial.Lacks)
	ids, err := d.OpenRecipe(demo.TernInLace(), nil)
	require.NoError(t, err)
	require.Empty(t, ids)
	require.Len(t, d.Document().Recipe, len(demo.TernInLace()))
	require.True(t, d.Undo())
	require.Equal(t, before, bytesOf(t, d))
}
