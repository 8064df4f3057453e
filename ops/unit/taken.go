package unit

import (
	"fmt"
	"strings"
)

// Taken tells someone who reads lengths in mm or cm what a fraction without a
// unit is taken for, and how the same number of her own unit is written: "1/2
// is taken for inches, 1/2 in = 1.27 cm; for half a cm write 0.5". It is empty
// for all else.
func Taken(text string, system System) string {
	s := strings.TrimSpace(vulgar.Replace(strings.ToLower(strings.TrimSpace(text))))
	m := length.FindStringSubmatch(s)
	if system == InchFractions || m == nil || m[8] != "" || m[7] != "" {
		return ""
	}
	mm, err := ParseIn(text, system)
	v, _, wrong := value(m[2:8])
	if err != nil || wrong != nil {
		return ""
	}
	if mm < 0 {
		v = -v
	}
	said := strings.TrimSpace(text)
	own := decimal(v, 3)
	return fmt.Sprintf("%s is taken for inches: %s in = %s; for %s %s write %s.", said, said, Format(mm, system), own, system, own)
}
