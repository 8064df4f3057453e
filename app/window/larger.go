package window

import "strings"

// seeLarger keeps a view of all one of all where pieces come up beyond it that
// were not there, as a lining does or the other half of what is unfolded. It is
// done once for each such act, so that the mat lies still while that is worked on.
func (w *Window) seeLarger() {
	now := w.desk.Pattern()
	var beyond []string
	for i := range w.shown.pieces {
		pc := &w.shown.pieces[i]
		if was := now.Piece(pc.Name); was == nil || pc.Area() > grownBy*was.Area() {
			beyond = append(beyond, pc.Name)
		}
	}
	key := strings.Join(beyond, "\n")
	if w.held || w.keeping || w.prompt.tried != nil || key == w.larger {
		return
	}
	w.larger = key
	if key != "" {
		w.mat.Refit()
	}
}

// grownBy is the factor by which a piece has to grow to count as another.
const grownBy = 1.5
