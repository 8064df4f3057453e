package recipe

import (
	"fmt"

	"truemat/ops/pattern"
	"truemat/ops/step"
)

// Spoken returns those entries of a map of whose names a recipe speaks, such as
// one of which steps were left out.
func Spoken(r step.Recipe, m Map, known []step.Result) Map {
	t := newTrack(m, known)
	used := map[step.Name]bool{}
	for _, e := range r {
		mentions := e.Mentions()
		for _, mention := range mentions {
			t.speak(mention.Name, used)
		}
		t.pass(e, mentions)
	}
	spoken := Map{}
	for n, now := range m {
		if used[n] || onUsed(n, used) {
			spoken[n] = now
		}
	}
	return spoken
}

// speak notes a name as spoken of, and as that on the pieces its own is made of.
func (t *track) speak(n step.Name, used map[step.Name]bool) {
	used[n] = true
	for _, q := range t.origins(n.Piece) {
		used[step.Name{Kind: n.Kind, Piece: q, Name: n.Name}] = true
	}
}

// Rename returns the recipe with the names of another pattern in it, of which
// the results in every size are known; where they are nil, what pieces that are
// joined have of one name is taken to be as in the recipe's own pattern. It is
// refused when the map speaks of names that the recipe has not, or when two
// names of the recipe would become one.
func Rename(r step.Recipe, m Map, known []step.Result) (step.Recipe, error) {
	t := newTrack(m, known)
	used := map[step.Name]bool{}
	was := map[step.Name]step.Name{} // by its new name what it was
	next := make(step.Recipe, len(r))
	for i, e := range r {
		c, err := e.Clone()
		if err != nil {
			return nil, err
		}
		mentions := c.Mentions()
		now := make([]string, len(mentions))
		for k, mention := range mentions {
			n := mention.Name
			t.speak(n, used)
			now[k] = t.called(mention)
			if _, moved := t.from[n.Piece]; mention.Makes || moved || t.makes(n) {
				continue
			}
			to := step.Name{Kind: n.Kind, Name: now[k]}
			if n.Kind.OnPiece() {
				to.Piece = t.translated(step.Name{Kind: step.NamePiece, Name: n.Piece})
			}
			if before, ok := was[to]; ok && before != n {
				return nil, &Clash{before, n, to}
			}
			was[to] = n
		}
		t.pass(c, mentions)
		for k, mention := range mentions {
			if now[k] != mention.Name.Name {
				mention.Set(now[k])
			}
		}
		next[i] = c
	}
	for _, n := range sorted(m) {
		if !used[n] && !onUsed(n, used) {
			return nil, fmt.Errorf("the steps speak of no %s; they speak of %s", n, spoken(used, n.Kind))
		}
	}
	return next, nil
}

// onUsed reports whether a longer name of the recipe begins with the name.
func onUsed(n step.Name, used map[step.Name]bool) bool {
	for u := range used {
		if len(u.Name) > len(n.Name) && u.Name[:len(n.Name)+1] == n.Name+" " {
			return true
		}
	}
	return false
}

// spoken lists the names of a kind that the recipe has.
func spoken(used map[step.Name]bool, kind step.NameKind) string {
	list := ""
	for _, n := range sorted(used) {
		if n.Kind != kind {
			continue
		}
		if list != "" {
			list += ", "
		}
		if kind.OnPiece() {
			list += fmt.Sprintf("%q", n.Piece+"/"+n.Name)
		} else {
			list += fmt.Sprintf("%q", n.Name)
		}
	}
	if list == "" {
		return "none"
	}
	return list
}

// Opened is a recipe opened on a pattern.
type Opened struct {
	Recipe  step.Recipe   // the steps there were and those added
	Results []step.Result // in every size
	Added   int           // how many steps were added
	// IDs are the new ids of steps whose own were taken, by these.
	IDs map[string]string
}

// Open adds a recipe, with its names mapped, to the steps that the pattern
// has, whose results are known. Nothing happens, and the error is a [Lacking]
// with all that is missing, when the pattern lacks names that the recipe takes
// from it; a [Clash] when two names would become one; otherwise each step must
// apply in every size it is meant for, as with [step.Recipe.Extend]. Steps whose ids are taken get new ones.
func Open(run pattern.Run, have step.Recipe, known []step.Result, add step.Recipe, m Map) (Opened, error) {
	t := Try(run, have, known, add, m)
	switch {
	case t.Err != nil:
		return Opened{}, t.Err
	case len(t.Lacks) > 0:
		return Opened{}, &Lacking{append(t.Lacks, t.May...)}
	}
	return t.opened, nil
}

// free gives the steps whose ids are taken new ones, by which the others find
// their figures. It changes the entries added.
func free(have, add step.Recipe) (step.Recipe, map[string]string) {
	ids := map[string]string{}
	for _, e := range add {
		if have.Index(e.ID) < 0 {
			continue
		}
		for n := 2; ; n++ {
			id := fmt.Sprintf("%s-%d", e.ID, n)
			if have.Index(id) < 0 && add.Index(id) < 0 {
				ids[e.ID] = id
				break
			}
		}
	}
	made := map[string]bool{}
	for i := range add {
		for _, m := range add[i].Mentions() {
			if id, ok := ids[m.Name.Name]; ok && m.Kind == step.NameStep && (m.Makes || made[m.Name.Name]) {
				m.Set(id)
				made[m.Name.Name] = true
			}
		}
	}
	return add, ids
}
