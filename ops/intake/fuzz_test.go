package intake

import (
	"strings"
	"testing"

	"truemat/geom"
)

// Whatever a drawing holds, it comes in as a valid pattern or not at all.
func FuzzBring(f *testing.F) {
	for _, s := range []string{
		`<g id="a"><path d="M0 0h50v50h-50z"/><path d="M25 -2v5M9 9h9"/></g>`,
		`<ellipse id="e" cx="50" cy="50" rx="40" ry="9"/><path d="M0 0h40"/><path d="M40 0v40"/><path d="M0 0L40 40"/>`,
		`<path id="p" d="M0 0C0 90 60 -30 60 60S-9 99 0 0zM9 9l1 1"/><polygon points="0 0 9 9 9 0 0 9"/>`,
		`<g transform="rotate(9)scale(3 .1)"><circle r="30"/></g><use href="#p"/><rect width="20" height="1" rx="3"/>`,
		`<path d="M0 0l1 .1l1 .2l1 .3l1 .4l1 .5l1 .7l1 .9v30h-9z"/>`,
	} {
		f.Add(s, 0.0, 15.0)
		f.Add(s, 6.35, 40.0)
	}
	f.Fuzz(func(t *testing.T, inner string, allowance, degrees float64) {
		opt := Options{Allowance: allowance, Corner: geom.Angle(degrees) * geom.Degree}
		res, err := Bring(strings.NewReader(page+inner+`</svg>`), nil, opt)
		if err != nil {
			return
		}
		if err := res.Run.Validate(); err != nil {
			t.Error(err)
		}
	})
}
