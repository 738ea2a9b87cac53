package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// appName names the folder of this program among those of others.
const appName = "kettledrum"

// StateDir returns the folder in which runs are kept: $XDG_STATE_HOME/kettledrum
// or ~/.local/state/kettledrum, on macOS and Windows a folder in the user's
// place for such things. Source: XDG Base Directory Specification 0.8, which
// wants a relative path ignored.
func StateDir() (string, error) {
	if dir := os.Getenv("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return filepath.Join(dir, appName), nil
	}
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		dir, err := os.UserConfigDir()
		if err != nil {
			return "", fmt.Errorf("find the folder for runs: %w", err)
		}
		return filepath.Join(dir, appName), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("find the folder for runs: %w; or set XDG_STATE_HOME", err)
	}
	return filepath.Join(home, ".local", "state", appName), nil
}

// RunDir returns the folder of the run of a dinner: the same for the same title
// and the same time at table, so that a second start goes on with the first.
func RunDir(state, title string, table time.Time) string {
	return filepath.Join(state, "runs", table.Format("2006-01-02-1504")+"-"+slug(title))
}

// maxSlug keeps paths short enough for every system.
const maxSlug = 40

// slug makes a title fit for a file name: lower case letters and digits without
// accents, hyphens between.
func slug(title string) string {
	var b strings.Builder
	for _, r := range norm.NFKD.String(strings.ToLower(title)) {
		switch {
		case unicode.Is(unicode.Mn, r):
			continue
		case r < unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= maxSlug {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "dinner"
}
