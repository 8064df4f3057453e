// Package check measures what must hold of a pattern after it was altered.
//
// Each check gives a measured figure with its unit, what is allowed, a
// verdict, the place, and a sentence with the remedy. The bounds in
// [Defaults] are common practice unless they say otherwise; the maker can set
// her own.
package check
