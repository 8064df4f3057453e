package lesson

// AboutTool says what a tool is for and how it is used, by the tool's name;
// "" for a name that no tool has.
func AboutTool(name string) string { return aboutTools[name] }

// AboutCheck says what a check measures and why it matters, by the check's
// id; "" for an id that no check has. The limits named are the default ones.
func AboutCheck(id string) string { return aboutChecks[id] }

var aboutTools = map[string]string{
	"hand":      "Selects and moves. Press a piece, an edge, a corner or a notch to see its numbers; drag a piece to lay it elsewhere. Near an edge it is sewn to, a piece snaps to it. Moving changes where a piece lies, never its shape.",
	"pin":       "Holds one spot of a piece and turns the piece round it. It settles where a spot or an edge meets a line, or turns by the degrees you write. The piece keeps its shape; only the way it lies changes.",
	"tape":      "Joins two pieces into one along an edge of each, as they lie. It shows how far they overlap or gape before you accept, and remembers that amount so that it can be given back.",
	"ruler":     "Makes a run of the outline straight, from one spot to another. What lies outside the line is trimmed, what is missing is filled with paper.",
	"smooth":    "Makes a fair curve out of a corner or a dent in an edge. The handles say how far to each side it reaches; with \"keep length\" the edge stays as long as it was, as a wire line must.",
	"add":       "Makes a piece wider or narrower at the end of an edge, running to nothing at its other end. What taping took can be shared out over several ends in one go.",
	"spread":    "Slashes a piece from an edge to a hinge and opens or closes it by an amount, an angle or until the edge has a length. About a hinge inside, such as the apex, what opens closes elsewhere by the same angle: so a dart moves. Every slash has a handle at both ends.",
	"reshape":   "Draws an edge, or a part of one, anew by its knots and handles. The length, and how far it is from the partner's, show while you pull; the tangents at its ends and its length can be kept.",
	"shears":    "Cuts a part of a piece off along a line, straight or curved: drag its middle to bow it, its handles to let it lean at an end. Before you accept it shows what becomes of the piece it is sewn to, since a seam has two sides: where that gets a notch, and what of it is turned back.",
	"split":     "Divides a piece in two along a straight or curved line and puts a new seam between the parts, with allowances and matching notches. Nothing that was sewn changes its length; both parts stay where they lie.",
	"fold":      "Opens a half on the fold out into the whole piece, or folds a whole one along a line about which it is symmetric and tells how far its halves miss. It also turns a piece over to its other hand, sets the two hands of a pair apart, and derives a lining without turn-backs, edge by edge.",
	"draw":      "Draws a line on a piece: from one spot of its outline to another, at a distance beside an edge, or through points you press. The line moves with the piece and is printed with it; a straight one can serve as a fold.",
	"true":      "Makes two edges run on smoothly over a seam, so that there is no corner where they are sewn together.",
	"level":     "Makes both sides of a seam equally long, apart from the ease that is meant: by bending the one, the other or both, or by moving one end of the seam. It tells how far anything moves.",
	"walk":      "Rolls one side of a seam along the other, as one walks paper along paper. It halts at notches and shows how far both sides were walked and how they differ; the table stands beside the mat. Notches can be dropped or moved on either side, ease stated and spread; two edges that are walked can be sewn together.",
	"notch":     "Sets, moves, doubles or takes away the little marks that tell where two edges meet in sewing. In every size one can lie as far from an end, at the same part of its edge, or where it matches the other side of the seam.",
	"allowance": "Sets how much cloth lies outside the sew line of an edge, on request on the other side of its seam too. Nought where a lace border or a bought edge is the finished edge.",
	"chalk":     "Writes on pieces, for example that a piece is altered and for which lace. What is written is printed with the piece. It also writes down how often, in how many layers and of what cloth a piece is cut.",
	"measure":   "Reads the length of an edge, or how far two places lie apart. It changes nothing.",
}

var aboutChecks = map[string]string{
	"wire-length":       "Compares the wire line with the length it had. The wire is bought in one length: beyond half a millimetre look, beyond one and a half it no longer fits.",
	"wire-opening":      "Compares how far the ends of the wire line lie apart with how far they did. A turn of a piece opens or closes it though the length stays: the wire is then bent open or squeezed.",
	"wire-depth":        "Compares how deep the wire line dips below the way between its ends. With the opening it tells whether the line still has the wire's shape.",
	"wire-inflection":   "Looks whether the wire line bends one way all along. A wire is one sweep: where the line sways to the other side, wire and cloth part.",
	"wire-play":         "Looks how much longer the wire line is than the wire, at each end. Five to seven millimetres, or what your wire table wants, let it lie without pressing; under three it works its way out.",
	"cup-wire":          "Compares the edge of the cup with the wire line it is sewn to, apart from the ease that is meant. If they differ the cup puckers or pulls.",
	"seam-length":       "Compares both sides of a seam, apart from the ease that is meant. Half a millimetre cannot be felt; beyond one and a half one side ends before the other.",
	"seam-notches":      "Looks whether the notches of both sides meet when the seam is sewn, as many on each side, single to single and double to double.",
	"seam-ease":         "Looks how much of the longer side must be eased into the shorter one. Up to two per cent sews in without trouble; beyond three it puckers.",
	"seam-allowance":    "Compares the allowances of both sides of a seam. One lays cut edge on cut edge, so unequal allowances shift the seam.",
	"seam-ends":         "Looks whether the allowances of a seam, pressed the way you said, end within the pieces they then lie on. What sticks out shows at the hem or neckline, or has to be trimmed after sewing.",
	"line-corner":       "Looks for a corner within an edge of a line, as taping leaves one: a wire lies in none, and elsewhere none should come that was not there, nor in a seam, as a slash leaves one in the edge of its hinge. Smoothing takes it away.",
	"line-allowance":    "Looks where a line goes on over a seam whether the allowances of both edges are alike there. Unlike ones make a step in the cut edge, over which no elastic, binding or turning runs on; so say both edges the same width, unless the step is meant.",
	"run-on":            "Looks where a line goes on over a seam, such as hem or neckline: it should neither turn by more than three degrees nor jump.",
	"fold-square":       "Looks whether an edge meets the fold at a right angle. If not, the unfolded piece has a point or a dip in its middle.",
	"hem-length":        "Compares the hem, from the fold to the closure, with the length it had. The hem goes round the body: what an overlap took should come back, half at each side seam.",
	"hem-body":          "Compares the finished hem, fastened, with the measure under the bust less the reduction you state, which depends on how the cloth and the elastic stretch. Two per cent is about one row of hooks; beyond four it slides up or presses.",
	"cloth-below-wire":  "Looks how much cloth is left between wire line and hem. Channelling and elastic must lie there side by side.",
	"bridge-top":        "Looks how wide the bridge is between the wires, unfolded. Two channellings must lie there side by side.",
	"lace-straight":     "Looks whether a lace edge is straight. The border of a lace cannot follow a curve, so even half a millimetre shows.",
	"lace-allowance":    "Looks whether a lace edge has no allowance. The border is the finished edge, so nothing is cut beyond it.",
	"turned-back":       "Looks how much the raw edge of a turned-back strip must stretch to lie flat where the edge is hollow. Up to ten per cent stretches, a little more can be clipped, beyond seventeen the edge wants a narrower turning or a facing. The limits are common practice; a firm cloth wants less.",
	"turned-back-round": "Looks how much longer the raw edge of a turned-back strip is than the line it comes to lie on where the edge is round: surplus cloth, which pleats. Up to five per cent presses flat, up to ten can be drawn in or notched out; beyond, make it narrower, bind it or face it. The limits are common practice.",
	"outline":           "Looks whether the edges of a piece close into one outline that does not cross itself, so that it can be cut out.",
	"short-edge":        "Looks for edges under one millimetre. Nobody can sew them; mostly two corners should have met.",
	"cut-line":          "Looks whether the cut line, the outline with its allowances, crosses itself. That happens where an edge is hollow and its allowance wide.",
	"mark":              "Looks whether an altered piece carries a mark that the original has not, so that the two are not mixed up on the table.",
	"partner":           "Looks whether every seam edge has an edge it is sewn to, or is declared free. What is left over would stay open.",
	"closure":           "Compares the closure edge with the height of the hooks and eyes, which are bought ready-made.",
	"halves-alike":      "Folds a piece that was unfolded along its middle again and looks how far its halves miss each other. Half a millimetre cannot be felt; where the halves are meant to differ, take the line of the fold away.",
	"arrow":             "Looks how far the cloth of a piece lies turned from its arrow after an alteration. Cloth stretches otherwise across than along: up to two degrees do no harm.",
}
