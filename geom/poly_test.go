package geom

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// fromRoots multiplies out ∏(t − r).
func fromRoots(rs ...float64) poly {
	p := poly{c: [6]float64{1}}
	for _, r := range rs {
		q := poly{n: p.n + 1}
		for i := 0; i <= p.n; i++ {
			q.c[i+1] += p.c[i]
			q.c[i] -= r * p.c[i]
		}
		p = q
	}
	return p
}

func TestPolyRoots(t *testing.T) {
	for _, rs := range [][]float64{
		{0.5}, {0.25, 0.75}, {0, 1}, {0.1, 0.5, 0.9}, {0, 0.5, 1}, {0.2, 0.4, 0.6, 0.8},
		{0.1, 0.3, 0.5, 0.7, 0.9}, {0, 0.25, 0.5, 0.75, 1}, {-1, 0.5, 2}, {-3, -2, -1, 2, 3},
	} {
		p := fromRoots(rs...)
		var want []float64
		for _, r := range rs {
			if r >= 0 && r <= 1 {
				want = append(want, r)
			}
		}
		got := p.roots()
		require.Len(t, got.all(), len(want), "%v: %v", rs, got.all())
		assert.InDeltaSlice(t, want, append([]float64{}, got.all()...), 1e-13)
	}
}

func TestPolyRootsTripleAndZero(t *testing.T) {
	p := fromRoots(0.5, 0.5, 0.5)
	got := p.roots()
	require.NotEmpty(t, got.all())
	for _, r := range got.all() { // a triple root is known to about ε^⅓
		assert.InDelta(t, 0.5, r, 1e-4)
	}
	zero := poly{n: 5}
	got = zero.roots()
	assert.Empty(t, got.all())
}

func TestPolyRootsAreSignChanges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := poly{n: rapid.IntRange(1, 5).Draw(t, "degree")}
		for i := 0; i <= p.n; i++ {
			p.c[i] = rapid.Float64Range(-100, 100).Draw(t, "c")
		}
		got := p.roots()
		inside := 0
		prev := p.at(0)
		for i := 1; i <= 1000; i++ { // every sign change of a fine sampling is found
			v := p.at(float64(i) / 1000)
			if prev < 0 && v > 0 || prev > 0 && v < 0 {
				inside++
			}
			prev = v
		}
		assert.GreaterOrEqual(t, got.n, inside)
		for _, r := range got.all() {
			assert.InDelta(t, 0, p.at(r), 1e-10)
			assert.True(t, r >= 0 && r <= 1 && !math.IsNaN(r))
		}
	})
}
