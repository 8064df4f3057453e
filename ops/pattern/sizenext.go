package pattern

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// BandAndCup reads a label that names a band by a number and a cup by letters,
// as "75C" or "34 DD" (common practice for bras; EN 13402-3 has such labels).
func BandAndCup(label string) (band int, cup string, ok bool) {
	i := strings.IndexFunc(label, func(r rune) bool { return !unicode.IsDigit(r) })
	if i <= 0 {
		return 0, "", false
	}
	band, err := strconv.Atoi(label[:i])
	cup = strings.TrimSpace(label[i:])
	letters := strings.IndexFunc(cup, func(r rune) bool { return !unicode.IsLetter(r) }) < 0
	return band, cup, err == nil && cup != "" && letters
}

// AllBandsAndCups reports whether every label names a band and a cup.
func AllBandsAndCups(labels []string) bool {
	return len(labels) > 0 && !slices.ContainsFunc(labels, func(s string) bool {
		_, _, ok := BandAndCup(s)
		return !ok
	})
}

// NextBands returns the labels with the cup of the one given and the next
// smaller and larger band that there is; none where labels name no bands.
func NextBands(labels []string, of string) []string {
	_, cup, ok := BandAndCup(of)
	if !ok {
		return nil
	}
	alike := slices.Clone(labels)
	alike = slices.DeleteFunc(alike, func(s string) bool {
		_, c, ok := BandAndCup(s)
		return !ok || c != cup
	})
	slices.SortStableFunc(alike, func(a, b string) int {
		x, _, _ := BandAndCup(a)
		y, _, _ := BandAndCup(b)
		return x - y
	})
	return beside(alike, of)
}

// NextCups returns the labels with the band of the one given and the cups
// before and after it, in the order of the list.
func NextCups(labels []string, of string) []string {
	band, _, ok := BandAndCup(of)
	if !ok {
		return nil
	}
	alike := slices.Clone(labels)
	return beside(slices.DeleteFunc(alike, func(s string) bool {
		b, _, ok := BandAndCup(s)
		return !ok || b != band
	}), of)
}

// NextSizes returns the labels before and after the one given, in the order of
// the list.
func NextSizes(labels []string, of string) []string { return beside(labels, of) }

func beside(labels []string, of string) (out []string) {
	i := slices.Index(labels, of)
	for _, k := range []int{i - 1, i + 1} {
		if i >= 0 && k >= 0 && k < len(labels) {
			out = append(out, labels[k])
		}
	}
	return out
}
