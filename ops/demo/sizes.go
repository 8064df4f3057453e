package demo

import "fmt"

// measures are what one size is drafted from, in mm.
type measures struct {
	band, cup string
	underbust float64 // of the body
	wire      float64 // diameter: the distance between the ends of its line
	depth     float64 // of the cup, over the cloth from the wire's bottom to the apex
	fullness  float64 // by which the seams of the cup bulge more than those of a C on the same wire
}

// label names the size by band and cup as in EN 13402-3: the underbust to the
// nearest 5 cm and a letter for how much the bust measures more.
func (m measures) label() string { return m.band + m.cup }

// The run: each band in each cup. Going up one band or one cup takes the next
// wire, so that sizes with the same wire fit the same breast, as is common
// practice.
const (
	firstBand, bandStep, bands = 65, 5, 4 // cm
	firstWire, wireStep        = 106.0, 6.0
	firstDepth, depthStep      = 77.0, 4.5
)

var cups = []string{"C", "D", "E"}

// run returns the measures of all sizes, by band and then by cup.
func run() []measures {
	var all []measures
	for b := range bands {
		for c, cup := range cups {
			band, wire := firstBand+b*bandStep, float64(b+c)
			all = append(all, measures{
				band:      fmt.Sprint(band),
				cup:       cup,
				underbust: float64(band) * 10,
				wire:      firstWire + wireStep*wire,
				depth:     firstDepth + depthStep*wire,
				fullness:  1 + 0.03*float64(c),
			})
		}
	}
	return all
}
