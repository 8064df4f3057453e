package command

import (
	"errors"
	"fmt"

	"github.com/spf13/pflag"
)

// Pictures draws the window's pictures into a folder and tells each file
// written. The program sets it; commands by themselves know no window.
var Pictures func(folder string, told func(path string)) error

var picturesCommand = command{
	name:  "pictures",
	use:   "--out FOLDER",
	short: "pictures of the window in all its states, without a display",
	long: `
Draws the window, without one being opened, in the states that show what it is:
the first start, both lessons, turning, taping, smoothing, walking, spreading,
reshaping, cutting off, splitting, checks, an upset step, a number that is drawn
along, the steps of another pattern, sizes and their table, wires and measures,
the print, dim light, inches, a fine and a wide screen. Each becomes a PNG in the
folder, which is made when it is not there. The demo lies on the mat and the
tools are used as by hand, so the pictures show the window as it is.

Example:
  truemat pictures --out pictures`,
	flags: func(f *pflag.FlagSet) {
		f.String("out", "", "the folder to write to")
	},
	run: func(c *call) error {
		folder, err := c.required("out")
		if err != nil {
			return err
		}
		if len(c.args) > 0 {
			return usageError(fmt.Sprintf("nothing is wanted beside the folder (%s)", c.args[0]))
		}
		if Pictures == nil {
			return errors.New("this program was built without its window")
		}
		return Pictures(folder, func(path string) { fmt.Fprintln(c.out, path) })
	},
}
