package command

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/pflag"
)

func isHelp(arg string) bool { return arg == "help" || arg == "--help" || arg == "-h" }

func help(topic []string, out, errOut io.Writer) int {
	if len(topic) == 0 {
		fmt.Fprint(out, overview())
		return Fine
	}
	cmd := find(topic[0])
	if cmd == nil {
		fmt.Fprintf(errOut, "truemat help: there is no command %q; there are %s.\n", topic[0], names())
		return Nothing
	}
	fmt.Fprintf(out, "truemat %s %s\n\n%s\n", cmd.name, cmd.use, strings.TrimSpace(cmd.long))
	if cmd.flags != nil {
		f := pflag.NewFlagSet(cmd.name, pflag.ContinueOnError)
		cmd.flags(f)
		fmt.Fprintf(out, "\n%s", f.FlagUsages())
	}
	return Fine
}

func overview() string {
	var b strings.Builder
	b.WriteString(`Truemat holds the pieces of a pattern at true size, makes every alteration an
exact step that can be taken back and repeated in every size, checks what must
still hold, and prints what will be cut.

A document (.truemat) keeps the pattern as it came in and the list of steps.
"truemat" alone, or with a file, opens the window; these work without one:

`)
	for _, c := range commands {
		fmt.Fprintf(&b, "  %-8s %s\n", c.name, c.short)
	}
	b.WriteString(`
A first walk through the whole job:

  truemat demo --out tern.truemat --altered    the demo bra with its lace recipe
  truemat check tern.truemat                   does everything still hold?
  truemat print tern.truemat --paper a4 --size 75C --out tern.pdf

"truemat help COMMAND" tells more, with an example.
Exit codes: 0 fine, 1 a check is broken, 2 nothing was done.
`)
	return b.String()
}
