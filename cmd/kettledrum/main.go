// Command kettledrum conducts a dinner from one plan file. See README.md for
// its use and run.go for its sub-commands.
package main

import "os"

func main() { os.Exit(execute(os.Args[1:], system())) }
