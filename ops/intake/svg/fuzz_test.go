package svg

import (
	"strings"
	"testing"
)

func FuzzRead(f *testing.F) {
	for _, s := range []string{
		`<svg width="10mm" height="10mm" viewBox="0 0 1 1"><g transform="rotate(3)"><path d="M0 0a5 5 0 1120 0zc1 1 1 1 2 2s3 3 4 4q1 1 2 2t1 1h3v4"/></g></svg>`,
		`<svg width="10in" height="10in"><symbol id="a" viewBox="0 0 1 1"><rect width="5" height="5" rx="1"/></symbol><use href="#a" width="9"/></svg>`,
		`<svg width="1mm" height="1mm"><style>.a{display:none}</style><ellipse class="a" rx="5%"/><text>x</text></svg>`,
		`<svg width="1mm" height="1mm"><polygon points="0 0 1e4 5,5 5"/><line x2="1Q"/><circle r="1e-300"/></svg>`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, in string) {
		d, err := Read(strings.NewReader(in), Options{})
		if err != nil {
			return
		}
		d.Walk(func(n Node, _ []Node) bool {
			for _, p := range n.Paths {
				if l := p.Length(); !(l > 0) {
					t.Errorf("%s has the length %g", n.Name(), l)
				}
				for _, c := range p.Segments() {
					for _, q := range c.P {
						if !q.Finite() {
							t.Errorf("%s goes through %v", n.Name(), q)
						}
					}
				}
			}
			return true
		})
	})
}
