// Command picture reads a captured screen, text with its colours, from standard
// input and writes it as SVG: picture WIDTH HEIGHT <screen.ansi >screen.svg.
package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"strings"

	"example.org/kettledrum/tui/tuitest"
)

func main() {
	if err := draw(); err != nil {
		fmt.Fprintln(os.Stderr, "picture:", err)
		os.Exit(1)
	}
}

func draw() error {
	if len(os.Args) != 3 {
		return fmt.Errorf("usage: picture WIDTH HEIGHT <screen.ansi >screen.svg")
	}
	width, err := strconv.Atoi(os.Args[1])
	if err != nil {
		return err
	}
	height, err := strconv.Atoi(os.Args[2])
	if err != nil {
		return err
	}
	screen, err := io.ReadAll(os.Stdin)
	if err != nil {
		return err
	}
	return tuitest.Picture(os.Stdout, strings.TrimSuffix(string(screen), "\n"), width, height, tuitest.Dark)
}
