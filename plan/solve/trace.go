package solve

import (
	"fmt"
	"os"
)

func trace(what string, a ...any) {
	if os.Getenv("TRACE") != "" {
		fmt.Fprintln(os.Stderr, append([]any{what}, a...)...)
	}
}
