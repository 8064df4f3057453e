package main

import (
	"fmt"
	"io"
	"net/url"
	"strconv"
	"strings"
	"time"

	"github.com/BurntSushi/xgb"
	"github.com/BurntSushi/xgb/xproto"
)

// drop lets a file fall on the middle of the program's window, as a file
// manager does: by the drag-and-drop protocol for X, version 5
// (freedesktop.org, "Drag-and-Drop Protocol for the X Window System").
func (r *real) drop(path string) {
	r.t.Helper()
	out, err := r.try("search", "--onlyvisible", "--name", "Truemat")
	if err != nil {
		r.t.Fatalf("the window is not found: %v %s", err, out)
	}
	id, err := strconv.ParseUint(strings.Fields(out)[0], 10, 32)
	if err == nil {
		err = drop(r.display, xproto.Window(id), path)
	}
	if err != nil {
		r.t.Fatalf("nothing was dropped: %v", err)
	}
	r.alive()
}

// drop carries one file over a window and lets it go there.
func drop(display string, target xproto.Window, path string) error {
	xgb.Logger.SetOutput(io.Discard) // it tells that no key is needed here
	x, err := xgb.NewConnDisplay(display)
	if err != nil {
		return err
	}
	defer x.Close()
	atoms := map[string]xproto.Atom{}
	for _, name := range []string{"XdndEnter", "XdndPosition", "XdndStatus", "XdndDrop", "XdndFinished", "XdndSelection", "XdndActionCopy", "text/uri-list"} {
		a, err := xproto.InternAtom(x, false, uint16(len(name)), name).Reply()
		if err != nil {
			return err
		}
		atoms[name] = a.Atom
	}
	screen := xproto.Setup(x).DefaultScreen(x)
	from, err := xproto.NewWindowId(x)
	if err != nil {
		return err
	}
	if err := xproto.CreateWindowChecked(x, 0, from, screen.Root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly, screen.RootVisual, 0, nil).Check(); err != nil {
		return err
	}
	if err := xproto.SetSelectionOwnerChecked(x, from, atoms["XdndSelection"], xproto.TimeCurrentTime).Check(); err != nil {
		return err
	}
	tell := func(what string, data ...uint32) error {
		data = append([]uint32{uint32(from)}, data...)
		for len(data) < 5 {
			data = append(data, 0)
		}
		e := xproto.ClientMessageEvent{Format: 32, Window: target, Type: atoms[what], Data: xproto.ClientMessageDataUnionData32New(data)}
		return xproto.SendEventChecked(x, false, target, 0, string(e.Bytes())).Check()
	}
	const version = 5
	if err := tell("XdndEnter", version<<24, uint32(atoms["text/uri-list"])); err != nil {
		return err
	}
	if err := tell("XdndPosition", 0, 400<<16|300, 0, uint32(atoms["XdndActionCopy"])); err != nil {
		return err
	}
	list := (&url.URL{Scheme: "file", Path: path}).String() + "\r\n"
	for end := time.Now().Add(patience); time.Now().Before(end); {
		ev, err := x.PollForEvent()
		if err != nil {
			return err
		}
		switch e := ev.(type) {
		case nil:
			time.Sleep(beat / 4)
		case xproto.ClientMessageEvent:
			switch e.Type {
			case atoms["XdndStatus"]:
				if e.Data.Data32[1]&1 == 0 {
					return fmt.Errorf("the window takes no files")
				}
				if err := tell("XdndDrop", 0, xproto.TimeCurrentTime); err != nil {
					return err
				}
			case atoms["XdndFinished"]:
				return nil
			}
		case xproto.SelectionRequestEvent:
			if err := xproto.ChangePropertyChecked(x, xproto.PropModeReplace, e.Requestor, e.Property, e.Target, 8, uint32(len(list)), []byte(list)).Check(); err != nil {
				return err
			}
			done := xproto.SelectionNotifyEvent{Time: e.Time, Requestor: e.Requestor, Selection: e.Selection, Target: e.Target, Property: e.Property}
			if err := xproto.SendEventChecked(x, false, e.Requestor, 0, string(done.Bytes())).Check(); err != nil {
				return err
			}
		}
	}
	return fmt.Errorf("the window did not answer")
}
