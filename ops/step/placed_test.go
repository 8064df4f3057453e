package step_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"truemat/ops/demo"
	"truemat/ops/step"
)

// Where an edge starts is shown nowhere: the ends of edges are told by what
// they meet there.
func TestEndsOfEdgesAreToldByWhatTheyMeet(t *testing.T) {
	run, err := demo.Tern()
	require.NoError(t, err)
	p := run.Sizes[0].Pattern
	for said, want := range map[string]string{
		"Turn cradle about the start of bridge seam of cradle until the end of hem of cradle lies on the line of hem of bridge.": "Turn cradle about the wire end of bridge seam of cradle until the side seam end of hem of cradle lies on the line of hem of bridge.",
		"Lay cradle with the start of bridge seam on the end of cradle seam of bridge, edges side by side.":                      "Lay cradle with the wire end of bridge seam on the wire end of cradle seam of bridge, edges side by side.",
		"Cut off from the start of nothing of cradle.":                                                                           "Cut off from the start of nothing of cradle.",
		"Tape at the end of cradle seam of bridgehead.":                                                                          "Tape at the end of cradle seam of bridgehead.",
	} {
		require.Equal(t, want, step.Placed(said, p))
	}
	for _, r := range demo.TernInLace().Replay(run) {
		for _, rep := range r.Reports {
			require.NotRegexp(t, `the (start|end) of (hem|wire|side seam|bridge seam|cradle seam)`, rep.Sentence)
		}
	}
}
