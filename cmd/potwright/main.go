// Command potwright reads recipes, computes what is in them, checks everyone at
// the table and finds the least change that suits them all.
package main

import (
	"os"

	"potwright/internal/cli"
)

func main() {
	os.Exit(cli.Main(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}
