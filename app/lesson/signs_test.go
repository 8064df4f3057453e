package lesson

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/pattern"
)

func TestEveryRoleHasAText(t *testing.T) {
	for _, r := range pattern.Roles {
		sentences(t, string(r), AboutRole(r))
	}
	require.Empty(t, AboutRole("nothing"))
}
