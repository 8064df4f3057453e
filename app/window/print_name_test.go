package window

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/render"
)

// The file of an altered pattern is offered under another name than that of the
// pattern it came from.
func TestThePrintOfAnAlteredPatternIsNamedSo(t *testing.T) {
	w := open(t, false)
	p := &printing{w: w}
	require.Equal(t, w.stem(), p.stem())
	p.job.Altered = render.AlterationOf(open(t, true).desk.Results())
	require.Equal(t, w.stem()+" altered", p.stem())
}
