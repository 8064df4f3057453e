package suit

import (
	"slices"

	"truemat/ops/check"
	"truemat/ops/cloth"
	"truemat/ops/step"
)

// Doubts returns what does not hold in the sizes of some results, the checks of
// cloths and elastics included.
func Doubts(results []step.Result, bounds check.Bounds, g cloth.Goods) check.Doubts {
	sizes := make([]check.SizeChecks, len(results))
	for i, r := range results {
		sizes[i] = check.SizeChecks{Size: r.Size.Label, Checks: slices.Concat(check.Run(r.Before, r.Size.Pattern, bounds), Run(g, r.Size.Pattern, Defaults()))}
	}
	return check.Tabulate(sizes).Doubts()
}

// Judges reports whether a check is one of this package's, rather than one of
// the pieces alone.
func Judges(c check.Check) bool {
	return slices.Contains([]string{Firm, Stretchy, LaceOver, ElasticTurned, ElasticRoom, ElasticShort, ClosureColumn, BandStrain, TopstitchHold}, c.ID)
}
