package window

import (
	"fmt"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"truemat/ops/cloth"
	"truemat/ops/demo"
	"truemat/ops/store"
)

// cloth shows what the altered demo is made of, a field of the pull test of
// its net lit.
func (s *sitting) cloth() error {
	_, err := s.lightField("power net", "along.under")
	return err
}

// clothLace has the scallops of the lace lit, with a net in the library.
func (s *sitting) clothLace() error {
	dir, err := os.MkdirTemp("", "truemat")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	s.library = filepath.Join(dir, "cloths.json")
	g := demo.Goods()
	g.Cloths[1].Name = "firm net, black"
	g.Made[1].Cloths[0] = g.Cloths[1].Name
	if _, err := store.KeepCloth(s.library, g, g.Cloths[1].Name); err != nil {
		return err
	}
	_, err = s.lightField("heron lace", "lace.depth")
	return err
}

// clothWrong has a shifted lace described that cannot be so.
func (s *sitting) clothWrong() error {
	f, err := s.lightField("heron lace", "lace.shift")
	if err != nil {
		return err
	}
	f.borders = bothShifted
	s.cloths.again()
	f.fields["lace.shift"].SetText("120 mm")
	f.fields["along.after"].SetText("98")
	f.keep()
	s.win.Canvas().Focus(f.fields["lace.repeat"])
	return nil
}

// clothLayers has the lace laid over the band, which suffers by it.
func (s *sitting) clothLayers() error {
	g, err := demo.Goods().WithLayers("band", "heron lace", "power net")
	if err != nil {
		return err
	}
	return s.partOf(g, "Layers")
}

// clothElastic has the reduction of the hem's elastic on the band lit.
func (s *sitting) clothElastic() error {
	if err := s.partOf(demo.Goods(), partExtras); err != nil {
		return err
	}
	s.win.Canvas().Focus(s.elastics["hem elastic"].fields["cut.band"])
	return nil
}

// clothNotions states straps, closure and thread.
func (s *sitting) clothNotions() error {
	if err := s.partOf(demo.Goods(), partExtras); err != nil {
		return err
	}
	s.elastic = notionsTab
	s.cloths.again()
	return nil
}

// clothBuy is the list to shop from.
func (s *sitting) clothBuy() error { return s.partOf(demo.Goods(), "To buy") }

// clothSuits has two layers that do not suit their pieces.
func (s *sitting) clothSuits() error {
	g, err := demo.Goods().WithLayers("band", "heron lace", "power net")
	if err == nil {
		g, err = g.WithLayers("inner cup", "heron lace")
	}
	if err != nil {
		return err
	}
	return s.partOf(g, "Do they suit?")
}

// partOf opens a part of the page of cloth and sewing.
func (s *sitting) partOf(g cloth.Goods, part string) error {
	if err := s.desk.SetGoods(g); err != nil {
		return err
	}
	s.clothPage()
	s.clothTo(part)
	return nil
}

func (s *sitting) lightField(name, field string) (*clothForm, error) {
	if err := s.partOf(demo.Goods(), partCloths); err != nil {
		return nil, err
	}
	s.described = name
	s.cloths.again()
	f := s.describing[name]
	if f == nil {
		return nil, fmt.Errorf("%s is not described", name)
	}
	s.win.Canvas().Focus(f.fields[field])
	return f, nil
}

// clothSewing shows the pieces as worn and the first acts, one refused.
func (s *sitting) clothSewing() error {
	if err := s.partOf(demo.Goods(), "As worn, sewing"); err != nil {
		return err
	}
	for _, f := range reachable(s.cloths.part) {
		if r, ok := f.(*actRow); ok && r.name == "act join wire seam" {
			rollTo(s.cloths.roll, fyne.NewPos(0, clothSewingDown))
			s.win.Canvas().Focus(r)
			r.list.move(r.at, 0)
		}
	}
	return nil
}

// clothSewingDown is how far the page is rolled in that picture.
const clothSewingDown = 250

// clothSheet shows the page of the sheet with the order of sewing.
func (s *sitting) clothSheet() error {
	s.telling.page = 4
	return s.partOf(demo.Goods(), "The sheet")
}
