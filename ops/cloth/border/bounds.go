package border

import (
	"math"
	"slices"
)

// bounds hold upper bounds of the differences of signed variables: variable 2i
// is the i-th number, 2i+1 the same negated, so that sums and single numbers,
// doubled, are bound too (Miné, "The octagon abstract domain", 2006).
type bounds struct {
	n    int // signed variables
	most []float64
}

func unbound(numbers int) bounds {
	b := bounds{2 * numbers, make([]float64, 4*numbers*numbers)}
	for i := range b.most {
		b.most[i] = math.Inf(1)
	}
	for i := range b.n {
		b.most[i*b.n+i] = 0
	}
	return b
}

func (b bounds) clone() bounds { return bounds{b.n, slices.Clone(b.most)} }

// at returns the greatest difference of two signed variables.
func (b bounds) at(u, v int) float64 { return b.most[u*b.n+v] }

// between returns the least and the greatest difference of two signed variables.
func (b bounds) between(u, v int) (low, high float64) { return -b.at(v, u), b.at(u, v) }

// limit keeps a difference at most c, with all that follows from that; whole
// lowers a bound to what the difference can be. It returns false when the bounds
// contradict each other.
func (b bounds) limit(u, v int, c float64, whole func(u, v int, c float64) float64) bool {
	type bound struct{ u, v int }
	c = whole(u, v, c)
	if c >= b.at(u, v)-joins {
		return true
	}
	b.most[u*b.n+v] = c
	for todo := []bound{{u, v}}; len(todo) > 0; {
		t := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, e := range []bound{t, {t.v ^ 1, t.u ^ 1}} {
			c := b.at(t.u, t.v)
			for i := range b.n {
				left := b.at(i, e.u)
				if math.IsInf(left, 1) {
					continue
				}
				for k := range b.n {
					sum := left + c + b.at(e.v, k)
					if math.IsInf(sum, 1) || sum >= b.at(i, k)-joins {
						continue
					}
					if i == k {
						return false
					}
					lowered := whole(i, k, sum)
					b.most[i*b.n+k] = lowered
					if lowered < sum-joins {
						todo = append(todo, bound{i, k})
					}
				}
			}
		}
	}
	return true
}
