// Package patterntest makes random patterns for property tests, and a fixed
// one for examples. All of them are valid, and their outlines do not cross
// themselves.
package patterntest
