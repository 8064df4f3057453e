// Truemat holds lingerie patterns at true size and alters them exactly.
package main

import (
	"os"

	"truemat/app/command"
)

func main() {
	os.Exit(command.Run(os.Args[1:], os.Stdout, os.Stderr))
}
