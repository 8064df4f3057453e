// Truemat holds lingerie patterns at true size and alters them exactly.
package main

import (
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/test"
	"truemat/app/command"
	"truemat/app/desk"
	_ "truemat/app/locale"
	"truemat/app/settings"
	"truemat/app/window"
	"truemat/ops/demo"
	"truemat/ops/store"
)

func main() {
	args := os.Args[1:]
	if len(args) > 1 || len(args) == 1 && !isFile(args[0]) {
		command.Pictures = func(folder string, told func(path string)) error {
			return window.Pictures(test.NewApp, folder, told)
		}
		os.Exit(command.Run(args, os.Stdout, os.Stderr))
	}
	if err := open(args); err != nil {
		fmt.Fprintf(os.Stderr, "truemat: %v\n", err)
		os.Exit(command.Nothing)
	}
}

// ending ends the program at once when the window has done all it has to. The
// toolkit's own way now and then sends its last event after it has closed the
// queue for them, and panics.
type ending struct{ fyne.App }

func (ending) Quit() { os.Exit(0) }

// isFile tells a file to be opened in the window from a word of the command
// line: it has an ending or a folder in its name, or lies here and is no word.
func isFile(arg string) bool {
	if strings.HasPrefix(arg, "-") {
		return false
	}
	return filepath.Ext(arg) != "" || strings.ContainsRune(arg, filepath.Separator)
}

// open shows the window with the document of that name, or the Tern. It
// returns when the window is closed.
func open(args []string) (err error) {
	d, later, wrong, err := lay(args)
	if err != nil {
		return err
	}
	if err := display(); err != nil {
		return errors.Join(wrong, noWindow(err))
	}
	shown := false
	defer func() {
		if r := recover(); r != nil {
			if shown {
				panic(r)
			}
			err = noWindow(fmt.Errorf("%v", r))
		}
	}()
	path, none := settings.Path()
	if none != nil {
		fmt.Fprintf(os.Stderr, "truemat: %v; they are not kept\n", none)
	}
	w := window.NewWith(ending{app.New()}, settings.Open(path), d)
	if later != "" {
		w.OpenLater(later)
	}
	if err := w.Show(); err != nil {
		return noWindow(err)
	}
	shown = true
	w.Run()
	return nil
}

func noWindow(why error) error {
	return fmt.Errorf("there is no window here (%w). Without one these work: truemat demo, bring, measure, alter, check, draw and print; \"truemat help\" tells of them", why)
}

// lay puts the document on a desk. A drawing, and a document that cannot be
// read for what is wrong with it, are left to be opened later by the window,
// which lets a drawing be looked at and tells what is wrong; till then the
// Tern lies there.
func lay(args []string) (d *desk.Desk, later string, wrong, err error) {
	if len(args) == 1 {
		later = args[0]
		if !strings.EqualFold(filepath.Ext(later), ".svg") && !large(later) {
			var doc store.Document
			if doc, wrong = store.Load(later); wrong == nil {
				d, err = desk.New(doc, later)
				return d, "", nil, err
			}
		}
	}
	tern, err := demo.Tern()
	if err != nil {
		return nil, "", nil, err
	}
	d, err = desk.New(store.Document{Source: tern}, "")
	return d, later, wrong, err
}

// large reports whether a document takes so long to read that the window is
// better shown first; it is then opened there and can be called off.
func large(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Size() > 3<<20
}

// display reports why no window can be shown, before the toolkit is asked,
// which waits or ends the program when there is none.
func display() error {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return nil
	}
	name := os.Getenv("DISPLAY")
	if name == "" {
		if os.Getenv("WAYLAND_DISPLAY") != "" {
			return errors.New("an X display is needed, such as Xwayland; DISPLAY is not set")
		}
		return errors.New("DISPLAY is not set")
	}
	host, number, ok := strings.Cut(name, ":")
	if !ok {
		return fmt.Errorf("DISPLAY is %q", name)
	}
	number, _, _ = strings.Cut(number, ".")
	network, address := "unix", "/tmp/.X11-unix/X"+number
	if host != "" && host != "unix" {
		port := 6000
		if _, err := fmt.Sscan(number, &port); err == nil {
			port += 6000
		}
		network, address = "tcp", fmt.Sprintf("%s:%d", host, port)
	}
	c, err := net.Dial(network, address)
	if err != nil {
		return fmt.Errorf("display %s does not answer", name)
	}
	return c.Close()
}
