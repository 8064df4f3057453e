package lesson

import "truemat/ops/pattern"

// AboutRole says what an edge of a role is, as told beside its sign; "" for a
// role that has none.
func AboutRole(r pattern.Role) string { return aboutRoles[r] }

var aboutRoles = map[pattern.Role]string{
	pattern.SeamEdge:   "Sewn to another edge: short dashes and no sign.",
	pattern.WireLine:   "The wire lies along it: a bow, as a wire is bent.",
	pattern.Hem:        "The lower edge, with elastic stitched on: a zigzag.",
	pattern.Neckline:   "The upper edge at the front: a V.",
	pattern.Underarm:   "The edge under the arm: two bows, back to back.",
	pattern.LaceEdge:   "Laid on the border of a lace, without allowance: scallops.",
	pattern.TurnedBack: "Folded to the inside and stitched down: an arrow that turns back.",
	pattern.Closure:    "Hooks and eyes are sewn on here: two eyes.",
	pattern.Fold:       "The piece is cut on the fold of the cloth here: a bracket and the word fold. Nothing is cut along it.",
	pattern.DartEdge:   "Sewn to the other edge of the same dart: short dashes and no sign.",
}
