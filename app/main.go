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

	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/test"
	"truemat/app/command"
	"truemat/app/desk"
	_ "truemat/app/locale"
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
	d, drawing, err := lay(args)
	if err != nil {
		return err
	}
	if err := display(); err != nil {
		return noWindow(err)
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
	w := window.New(app.NewWithID("truemat"), d)
	if drawing != "" {
		w.OpenLater(drawing)
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

// lay puts the document on a desk; a drawing is left to be looked at.
func lay(args []string) (d *desk.Desk, drawing string, err error) {
	doc, path := store.Document{}, ""
	if len(args) == 1 && !strings.EqualFold(filepath.Ext(args[0]), ".svg") {
		path = args[0]
		doc, err = store.Load(path)
	} else {
		doc.Source, err = demo.Tern()
		if len(args) == 1 {
			drawing = args[0]
		}
	}
	if err != nil {
		return nil, "", err
	}
	d, err = desk.New(doc, path)
	return d, drawing, err
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
