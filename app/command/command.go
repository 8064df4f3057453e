package command

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/pflag"
	"truemat/ops/unit"
)

// Exit codes of the program.
const (
	Fine    = 0 // done
	Broken  = 1 // done, and a check is broken
	Nothing = 2 // nothing was done: wrong use, unreadable input, cannot write
)

// command is one word of the command line.
type command struct {
	name  string
	use   string // the arguments after the name
	short string // one line
	long  string // what it does, and a worked example
	run   func(c *call) error
	flags func(f *pflag.FlagSet)
}

// call is one use of a command.
type call struct {
	args   []string
	flags  *pflag.FlagSet
	out    io.Writer
	errOut io.Writer
}

// commands lists the commands in the order in which help shows them.
var commands = []command{
	demoCommand,
	bringCommand,
	measureCommand,
	walkCommand,
	alterCommand,
	recipeCommand,
	checkCommand,
	fitCommand,
	drawCommand,
	printCommand,
	clothCommand,
	laceCommand,
	cuttingCommand,
	sewingCommand,
	sheetCommand,
	picturesCommand,
}

// errBroken ends a command that did its work and found a broken check.
var errBroken = errors.New("a check is broken")

// Run carries out one command line (without the program's name) and returns
// the exit code.
func Run(args []string, out, errOut io.Writer) int {
	if len(args) == 0 || isHelp(args[0]) {
		topic := args
		if len(topic) > 0 {
			topic = topic[1:]
		}
		return help(topic, out, errOut)
	}
	cmd := find(args[0])
	if cmd == nil {
		fmt.Fprintf(errOut, "truemat: there is no command %q; there are %s. Try \"truemat help\".\n", args[0], names())
		return Nothing
	}
	f := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
	f.SetOutput(io.Discard)
	if cmd.flags != nil {
		cmd.flags(f)
	}
	err := f.Parse(args[1:])
	if errors.Is(err, pflag.ErrHelp) {
		return help([]string{cmd.name}, out, errOut)
	}
	if err != nil {
		fmt.Fprintf(errOut, "truemat %s: %v. It is used so:\n  truemat %s %s\n", cmd.name, err, cmd.name, cmd.use)
		return Nothing
	}
	err = cmd.run(&call{args: f.Args(), flags: f, out: out, errOut: errOut})
	var wrong usageError
	switch {
	case err == nil:
		return Fine
	case errors.Is(err, errBroken):
		return Broken
	case errors.As(err, &wrong):
		fmt.Fprintf(errOut, "truemat %s: %v. It is used so:\n  truemat %s %s\n", cmd.name, err, cmd.name, cmd.use)
	default:
		fmt.Fprintf(errOut, "truemat %s: %v\n", cmd.name, err)
	}
	return Nothing
}

// usageError is a wrong use of a command, answered with how it is used.
type usageError string

func (e usageError) Error() string { return string(e) }

func find(name string) *command {
	for i := range commands {
		if commands[i].name == name {
			return &commands[i]
		}
	}
	return nil
}

func names() string {
	all := make([]string, len(commands))
	for i, c := range commands {
		all[i] = c.name
	}
	return strings.Join(all, ", ")
}

// one returns the only argument, which the usage calls what.
func (c *call) one(what string) (string, error) {
	switch len(c.args) {
	case 0:
		return "", usageError("the " + what + " is missing")
	case 1:
		return c.args[0], nil
	}
	return "", usageError(fmt.Sprintf("one %s is wanted, not %d (%s)", what, len(c.args), strings.Join(c.args, " ")))
}

func (c *call) text(flag string) string {
	v, _ := c.flags.GetString(flag)
	return v
}

func (c *call) yes(flag string) bool {
	v, _ := c.flags.GetBool(flag)
	return v
}

// required returns the value of a flag that must be given.
func (c *call) required(flag string) (string, error) {
	if v := c.text(flag); v != "" {
		return v, nil
	}
	return "", usageError("--" + flag + " is missing")
}

// units returns how lengths are to be written, as --units says.
func (c *call) units() (unit.System, error) {
	said := unit.System(c.text("units"))
	if all := []unit.System{unit.Millimetres, unit.Centimetres, unit.InchFractions}; !slices.Contains(all, said) {
		return "", usageError(fmt.Sprintf("lengths cannot be written in %q; give %s, %s or %s", said, all[0], all[1], all[2]))
	}
	return said, nil
}
