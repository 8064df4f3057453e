// Package step holds the alterations a maker makes, one file each, and the
// recipe that applies them in every size.
//
// A step is a value with its numbers. Applying it is pure: the same pattern
// and the same step give the same result, and a refusal changes nothing.
package step
