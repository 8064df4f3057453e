package geom

// Polynomials on [0, 1] by their Bernstein coefficients: n+1 of them for
// degree n.

// turnMost is the highest degree handled here.
const turnMost = 10

var turnBinomial = func() (b [turnMost + 1][turnMost + 1]float64) {
	for n := range b {
		b[n][0] = 1
		for k := 1; k <= n; k++ {
			b[n][k] = b[n][k-1] * float64(n-k+1) / float64(k)
		}
	}
	return b
}()

// turnTimes returns the product of f and g.
func turnTimes(f, g []float64) []float64 {
	m, n := len(f)-1, len(g)-1
	r := make([]float64, m+n+1)
	for i, a := range f {
		for j, b := range g {
			r[i+j] += turnBinomial[m][i] * turnBinomial[n][j] / turnBinomial[m+n][i+j] * a * b
		}
	}
	return r
}

// turnAdd adds k times g to f, both of one degree, in place and returns f.
func turnAdd(f, g []float64, k float64) []float64 {
	for i := range f {
		f[i] += k * g[i]
	}
	return f
}

// turnRoots visits the roots of odd order of the polynomial inside [0, 1], and
// may visit a few other places near roots of even order. A polynomial without
// a sign change among its coefficients has no such root; one with a single
// change has exactly one (Descartes); others are halved, at most 40 deep.
func turnRoots(c []float64, visit func(t float64)) {
	var a [turnMost + 1]float64
	copy(a[:], c)
	turnIsolate(a, len(c)-1, 0, 1, 40, visit)
}

func turnIsolate(a [turnMost + 1]float64, n int, lo, hi float64, depth int, visit func(t float64)) {
	changes, last := 0, 0.0
	for _, v := range a[:n+1] {
		if v*last < 0 {
			changes++
		}
		if v != 0 {
			last = v
		}
	}
	if changes == 0 {
		return
	}
	if changes == 1 && a[0]*a[n] < 0 {
		visit(lo + (hi-lo)*turnSingle(a[:n+1]))
		return
	}
	if depth == 0 {
		visit((lo + hi) / 2)
		return
	}
	var left [turnMost + 1]float64
	for k := 0; k <= n; k++ {
		left[k] = a[0]
		for i := 0; i < n-k; i++ {
			a[i] = (a[i] + a[i+1]) / 2
		}
	}
	// a now holds the right half, in place: a[n-k] is the last value of row k.
	mid := (lo + hi) / 2
	if left[n] == 0 {
		visit(mid)
	}
	turnIsolate(left, n, lo, mid, depth-1, visit)
	turnIsolate(a, n, mid, hi, depth-1, visit)
}

// turnSingle returns the only root between 0 and 1 of a polynomial with
// opposite signs there: false position by Illinois, with bisection in between.
func turnSingle(a []float64) float64 {
	lo, hi, flo, fhi := 0.0, 1.0, a[0], a[len(a)-1]
	side := 0
	for k := range 100 {
		t := (lo*fhi - hi*flo) / (fhi - flo)
		if k%4 == 3 || !(t > lo && t < hi) {
			t = (lo + hi) / 2
		}
		if hi-lo < 1e-15 || t == lo || t == hi {
			break
		}
		f := turnEval(a, t)
		switch {
		case f == 0:
			return t
		case f*flo < 0:
			if hi, fhi = t, f; side == 1 {
				flo /= 2
			}
			side = 1
		default:
			if lo, flo = t, f; side == -1 {
				fhi /= 2
			}
			side = -1
		}
	}
	return (lo + hi) / 2
}

// turnEval evaluates at t by the nested Bernstein form.
func turnEval(a []float64, t float64) float64 {
	n := len(a) - 1
	u, power, sum := 1-t, 1.0, a[0]
	for i := 1; i <= n; i++ {
		power *= t
		sum = sum*u + turnBinomial[n][i]*power*a[i]
	}
	return sum
}
