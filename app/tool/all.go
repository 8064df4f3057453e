package tool

// All returns the tools in the order in which they lie in the tray.
func All(t Table) []Tool {
	return []Tool{
		NewHand(t),
		NewPin(t),
		NewTape(t),
		NewRuler(t),
		NewSmooth(t),
		NewAdd(t),
		NewSpread(t),
		NewReshape(t),
		NewShears(t),
		NewSplit(t),
		NewFold(t),
		NewWalk(t),
		NewTrue(t),
		NewLevel(t),
		NewNotch(t),
		NewAllowance(t),
		NewChalk(t),
		NewDraw(t),
		NewMeasure(t),
	}
}
