package geom

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestMotionKnown(t *testing.T) {
	assert.InDelta(t, 0, Turn(90*Degree, Pt(1, 0)).Apply(Pt(3, 0)).Dist(Pt(1, 2)), 1e-15)
	assert.Equal(t, Pt(4, 6), Shift(Pt(1, 2)).Apply(Pt(3, 4)))
	m, err := Mirror(Pt(0, 0), Pt(5, 5))
	require.NoError(t, err)
	assert.InDelta(t, 0, m.Apply(Pt(3, 1)).Dist(Pt(1, 3)), 1e-15)
	assert.True(t, m.Mirrors())
	m, err = Carry(Pt(0, 0), Pt(2, 0), Pt(5, 5), Pt(5, 9))
	require.NoError(t, err)
	assert.InDelta(t, 0, m.Apply(Pt(1, 0)).Dist(Pt(5, 6)), 1e-15)
	assert.Error(t, second(Mirror(Pt(1, 1), Pt(1, 1))))
	assert.Error(t, second(Carry(Pt(0, 0), Pt(0, 0), Pt(0, 0), Pt(1, 0))))
	assert.Error(t, second(NewMotion(Angle(math.NaN()), Pt(0, 0), false)))
	assert.Error(t, second(NewMotion(0, Pt(math.Inf(1), 0), false)))
}

func TestMotionProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := drawMotion(t), drawMotion(t)
		p, q := drawPoint(t, 100), drawPoint(t, 100)
		require.InDelta(t, p.Dist(q), m.Apply(p).Dist(m.Apply(q)), 1e-11)
		require.InDelta(t, 0, m.Inverse().Apply(m.Apply(p)).Dist(p), 1e-10)
		require.InDelta(t, 0, m.Then(n).Apply(p).Dist(n.Apply(m.Apply(p))), 1e-10)
		require.Equal(t, m.Mirrors() != n.Mirrors(), m.Then(n).Mirrors())

		turn, shift, mirror := m.Parts()
		back, err := NewMotion(turn, shift, mirror)
		require.NoError(t, err)
		require.InDelta(t, 0, back.Apply(p).Dist(m.Apply(p)), 1e-11)

		b, err := json.Marshal(m)
		require.NoError(t, err)
		var read Motion
		require.NoError(t, json.Unmarshal(b, &read))
		require.Equal(t, m, read)
	})
}

func TestMotionJSONRefused(t *testing.T) {
	for _, s := range []string{`{"cos":1,"sin":1}`, `{"cos":0,"sin":0}`, `{"cos":1,"sin":0,"x":1e9}`, `[]`} {
		m := Shift(Pt(1, 1))
		assert.Error(t, json.Unmarshal([]byte(s), &m), s)
		assert.Equal(t, Shift(Pt(1, 1)), m)
	}
}

func TestAngle(t *testing.T) {
	assert.InDelta(t, 90, float64(Between(Pt(1, 0), Pt(0, 3)).Degrees()), 1e-13)
	assert.InDelta(t, -45, float64(Between(Pt(0, 2), Pt(1, 1)).Degrees()), 1e-13)
	assert.Equal(t, Angle(math.Pi), Between(Pt(1, 0), Pt(-1, 0)))
	assert.InDelta(t, 30, float64((750 * Degree).Normalized().Degrees()), 1e-11)
	assert.InDelta(t, math.Pi, float64(Angle(-math.Pi).Normalized()), 0)
	assert.InDelta(t, 0, (60 * Degree).Unit().Dist(Pt(0.5, math.Sqrt(3)/2)), 1e-15)
	assert.Equal(t, Angle(math.Pi/2), Pt(0, 2).Direction())
}
