package intake

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A drawing as a general program makes it: a viewBox that is not at zero, two
// millimetres to the unit, groups in groups, packed arcs, letters, copies.
const shapes = `<?xml version="1.0"?>
<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="40cm" height="300mm" viewBox="-37 12 200 150">
  <defs><symbol id="plate" viewBox="-5 -5 30 20" preserveAspectRatio="xMidYMid meet"><rect x="-5" y="-5" width="30" height="20" rx="4"/></symbol></defs>
  <ellipse id="ellipse" cx="0" cy="40" rx="25" ry="15"/>
  <g transform="rotate(17 3 4) translate(60,20)"><g transform="scale(2 1)"><circle id="squeezed" r="15"/></g></g>
  <path id="parabola" d="M100 40q25 10 50 0z"/>
  <path id="cubic" d="M100 60c0 50 50 50 50 0z"/>
  <path id="packed" d="M0 100a25 15 30 0130 10z"/>
  <path id="large" d="M60,120A25,15 30 1190,130Z" transform="translate(-7.5 3) rotate(-90)"/>
  <path id="flat" d="M-20 140a65 65 0 0150 0z"/>
  <g transform="matrix(0 1 -1 0 20 30)"><g transform="skewX(0)"><path id="D" d="m0 0v40h10a20 20 0 000-40z"/></g></g>
  <polygon id="L" points="0,0 0,30 20,30 20,25 5,25 5,0" transform="translate(90 90) scale(-1 1)"/>
  <use id="copy" xlink:href="#plate" x="100" y="20" width="60" height="60"/>
</svg>`

// The closed forms: elliptic integrals (Abramowitz & Stegun 17.3), the arc
// length of the parabola, circular arcs; the arcs of the turned ellipse were
// integrated with 40 digits.
func TestLengthsAndAreasOfGeneralShapes(t *testing.T) {
	res, err := Bring(strings.NewReader(shapes), nil, Options{})
	require.NoError(t, err)
	want := map[string][2]float64{ // perimeter in mm, area in mm² (0: not compared)
		"ellipse":  {255.269988633981283, math.Pi * 50 * 30},
		"squeezed": {30 * 9.68844822054767620, math.Pi * 60 * 30},
		"parabola": {102.606063042684450 + 100, 100 * 10 * 2.0 / 3},
		"cubic":    {200 + 100, 6000},
		"packed":   {65.752937702658 + math.Hypot(60, 20), 0},
		"large":    {189.51705093132 + math.Hypot(60, 20), 0},
		"flat":     {102.645691121937994 + 100, 0},
		"D":        {80 + 2*20 + 40*math.Pi, 80*20 + math.Pi*40*40/2},
		"L":        {2 * (60 + 40), 10*60 + 30*10},
		// The symbol's 30 × 20 box fits 60 × 60 units at 2:1, so 4 mm a unit.
		"copy": {4 * (100 - 32 + 8*math.Pi), 16 * (600 - 64 + 16*math.Pi)},
	}
	pieces := res.Run.Sizes[0].Pattern.Pieces
	require.Len(t, pieces, len(want))
	for i := range pieces {
		pc := &pieces[i]
		o, err := pc.Outline()
		require.NoError(t, err)
		assert.InDelta(t, want[pc.Name][0], o.Length(), 0.01, pc.Name)
		if area := want[pc.Name][1]; area > 0 {
			assert.InDelta(t, area, pc.Area(), 0.05, pc.Name)
		}
	}
}
