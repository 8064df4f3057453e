package mat

import (
	"testing"
)

func TestPictures(t *testing.T) {
	for _, c := range []struct {
		name string
		w, h float32
		dark bool
	}{{"plain-1280.png", 1280, 800, false}, {"dark-1280.png", 1280, 800, true}} {
		m, _, capture := shown(t, c.w, c.h, 1)
		m.Lay(View{Pieces: tern(t).Pieces})
		if c.dark {
			m.SetPalette(Dark())
		}
		keep(t, c.name, capture())
	}
	for _, c := range []struct {
		name string
		dark bool
	}{{"busy-1920.png", false}, {"busy-dark-1920.png", true}} {
		m, _, capture := shown(t, 1920, 1080, 1)
		m.Lay(busy(t))
		if c.dark {
			m.SetPalette(Dark())
		}
		keep(t, c.name, capture())
	}
}
