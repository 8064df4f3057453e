package look

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"truemat/assets"
)

// The toolkit gives a line of writing the whole number of rows of pixels that
// is nearest to what its typeface says it is high, and of these as many above
// the line on which letters stand as it says, rounded up; what is left below
// cuts the feet of g, p and y at the sizes of the window. So the faces say a
// little less above and more below here, with which no letter loses anything
// and lines of 14 units stay as high as they are.

// Height above and depth below the line on which letters stand, in the units
// of the typeface, of which an em has 2048.
const (
	faceAbove = 1900
	faceBelow = 586
)

// roomy returns a TrueType file whose horizontal header (hhea, OpenType 1.9)
// states these heights.
func roomy(ttf []byte) []byte {
	out := bytes.Clone(ttf)
	tables := int(binary.BigEndian.Uint16(out[4:]))
	for i := range tables {
		entry := out[12+16*i:]
		if string(entry[:4]) != "hhea" {
			continue
		}
		header := out[binary.BigEndian.Uint32(entry[8:]):]
		below := faceBelow
		binary.BigEndian.PutUint16(header[4:], faceAbove)
		binary.BigEndian.PutUint16(header[6:], uint16(-below))
		return out
	}
	panic(fmt.Sprintf("the typeface %s has no horizontal header", assets.FontFamily))
}
