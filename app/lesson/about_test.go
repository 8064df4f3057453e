package lesson

import (
	"go/ast"
	"go/parser"
	"go/token"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"truemat/app/tool"
)

// checkIDs reads the ids from the source of the checks, so that a new check
// without a text is noticed.
func checkIDs(t *testing.T) []string {
	t.Helper()
	f, err := parser.ParseFile(token.NewFileSet(), "../../ops/check/check.go", nil, parser.ParseComments)
	require.NoError(t, err)
	var ids []string
	for _, d := range f.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST || !strings.HasPrefix(g.Doc.Text(), "IDs of the checks") {
			continue
		}
		for _, s := range g.Specs {
			for _, v := range s.(*ast.ValueSpec).Values {
				id, err := strconv.Unquote(v.(*ast.BasicLit).Value)
				require.NoError(t, err)
				ids = append(ids, id)
			}
		}
	}
	return ids
}

func TestEveryCheckHasATextAndEveryTextACheck(t *testing.T) {
	ids := checkIDs(t)
	require.Greater(t, len(ids), 20)
	for _, id := range ids {
		sentences(t, id, AboutCheck(id))
	}
	for id := range aboutChecks {
		assert.Contains(t, ids, id)
	}
	require.Empty(t, AboutCheck("nothing"))
}

func TestEveryToolHasAText(t *testing.T) {
	for _, x := range tool.All(tern(t, nil)) {
		sentences(t, x.Name(), AboutTool(x.Name()))
	}
	for _, a := range First().Steps {
		sentences(t, a.Title, a.Text)
		sentences(t, a.Title, a.Keys)
		sentences(t, a.Title, AboutTool(a.Tool))
	}
	require.Empty(t, AboutTool("nothing"))
}

// sentences checks that a text is there and short enough to be read.
func sentences(t *testing.T, what, text string) {
	t.Helper()
	assert.NotEmpty(t, text, what)
	assert.True(t, strings.HasSuffix(text, "."), what)
	assert.LessOrEqual(t, len(strings.Fields(text)), 60, what)
	assert.NotContains(t, text, "  ", what)
}

func TestNoKeyStandsTwiceInTheTable(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range Keys() {
		require.NotEmpty(t, g.Keys, g.Title)
		for _, k := range g.Keys {
			assert.False(t, seen[k.Keys], k.Keys)
			seen[k.Keys] = true
			assert.NotEmpty(t, k.Does, k.Keys)
		}
	}
}
