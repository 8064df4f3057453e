package recipe

import (
	"slices"
	"strings"

	"truemat/ops/step"
)

// nearMost is how many names a sentence offers in place of one that is not there.
const nearMost = 3

// near returns the names of the pattern that may be meant by one it lacks, and
// those that cannot, since the recipe speaks of them already.
func (f finder) near(l Lack, r step.Recipe) (near, taken []string) {
	if l.Taken {
		return nil, nil
	}
	p := f.known[0].Size.Pattern
	var all []string
	switch l.Name.Kind {
	case step.NameStep:
		return nil, nil
	case step.NameSize:
		for _, k := range f.known {
			all = append(all, k.Size.Label)
		}
	default:
		for _, q := range append(f.origins(l.Name.Piece), l.Name.Piece) {
			all = append(all, namesIn(p, l.Name.Kind, f.here(step.Name{Kind: step.NamePiece, Name: q}).Name)...)
		}
	}
	score := map[string]float64{}
	spoken := f.spokenFor(l.Name, r)
	for _, name := range all {
		score[name] = alike(l.Wanted, name)
		switch l.Name.Kind {
		case step.NamePiece:
			score[name] += f.sameParts(l.Name.Name, name, r)
		case step.NameEdge:
			for _, q := range f.origins(l.Name.Piece) {
				if _, e := p.Edge(f.here(step.Name{Kind: step.NamePiece, Name: q}).Name, name); e != nil {
					score[name] = max(score[name], alike(l.Wanted, strings.ReplaceAll(string(e.Role), "-", " ")))
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b string) int {
		switch {
		case score[a] > score[b]:
			return -1
		case score[a] < score[b]:
			return 1
		}
		return 0
	})
	seen := map[string]bool{}
	all = slices.DeleteFunc(all, func(name string) bool {
		twice := seen[name]
		seen[name] = true
		return twice
	})
	for _, name := range all {
		if _, ok := spoken[name]; ok {
			taken = append(taken, name)
		} else {
			near = append(near, name)
		}
	}
	return near, taken
}

// spokenFor returns what others of the same kind and piece in the recipe are
// called here, and which of them it is.
func (t *track) spokenFor(n step.Name, r step.Recipe) map[string]step.Name {
	spoken := map[string]step.Name{}
	for _, e := range r {
		for _, m := range e.Mentions() {
			if m.Kind == n.Kind && m.Piece == n.Piece && m.Name != n && !m.Makes {
				spoken[t.translated(m.Name)] = m.Name
			}
		}
	}
	return spoken
}

// Standing returns what other names of the recipe, of the same kind and piece as
// n, are called in the pattern, and which of them it is.
func Standing(r step.Recipe, m Map, known []step.Result, n step.Name) map[string]step.Name {
	return newTrack(m, known).spokenFor(n, r)
}

// sameParts returns the share of the edges, notches and inner lines which the
// recipe speaks of on a piece that another piece has.
func (f finder) sameParts(piece, other string, r step.Recipe) float64 {
	asked := map[step.Name]bool{}
	for _, e := range r {
		for _, m := range e.Mentions() {
			if m.Kind.OnPiece() && m.Piece == piece && !m.Makes {
				asked[m.Name] = true
			}
		}
	}
	there := 0
	for n := range asked {
		if f.inAny(step.Name{Kind: n.Kind, Piece: other, Name: f.translated(n)}) {
			there++
		}
	}
	if there == 0 {
		return 0
	}
	return float64(there) / float64(len(asked))
}

// alike returns how alike two names are, from 0 to 1: by their letters
// (Levenshtein 1966), or by the words that they share.
func alike(a, b string) float64 {
	x, y := []rune(strings.ToLower(a)), []rune(strings.ToLower(b))
	if len(x) == 0 || len(y) == 0 {
		return 0
	}
	row := make([]int, len(y)+1)
	for j := range row {
		row[j] = j
	}
	for i := range x {
		diagonal := row[0]
		row[0] = i + 1
		for j := range y {
			cost := diagonal
			if x[i] != y[j] {
				cost++
			}
			diagonal = row[j+1]
			row[j+1] = min(cost, row[j]+1, row[j+1]+1)
		}
	}
	letters := 1 - float64(row[len(y)])/float64(max(len(x), len(y)))
	u, v := strings.Fields(string(x)), strings.Fields(string(y))
	shared := 0
	for _, w := range u {
		if slices.Contains(v, w) {
			shared++
		}
	}
	return max(letters, float64(2*shared)/float64(len(u)+len(v)))
}
