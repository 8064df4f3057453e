package intake

import (
	"errors"
	"fmt"
	"slices"

	"truemat/geom"
)

// Division is a place at which the outline of a piece is divided into edges, or
// no longer is, told on top of what corners and the companion give.
type Division struct {
	Piece string
	// At is a place near the outline in mm, as the piece lies on the mat of the
	// first size with [Result.Origin] added. In other sizes it is where it is in
	// shares of the piece's width and height.
	At geom.Point
	// Smooth takes the nearest corner away; else one is made.
	Smooth bool
}

// divide makes the divisions told of a piece; box is that of the outline in the
// size at hand.
func (b *bringer) divide(c *cutUp, piece string, box geom.Box) error {
	for i := range b.opt.Divisions {
		d := &b.opt.Divisions[i]
		if d.Piece != piece {
			continue
		}
		if err := c.divide(b.share(&d.At, box), d.Smooth); err != nil {
			return err
		}
	}
	return nil
}

// divide adds a joint where the outline is nearest to a place, or takes the
// nearest one away.
func (c *cutUp) divide(at geom.Point, smooth bool) error {
	s := c.outline.Nearest(at).S
	i, d := c.nearestJoint(s)
	switch {
	case smooth && i < 0:
		return errors.New("there is no joint to take away")
	case smooth:
		c.joints = slices.Delete(c.joints, i, i+1)
		return nil
	case i >= 0 && d <= jointSlack:
		return fmt.Errorf("there is a joint already, %.2f mm from that place", d)
	}
	c.joints = append(c.joints, s)
	slices.Sort(c.joints)
	return nil
}
