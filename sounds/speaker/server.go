package speaker

import (
	"net"
	"os"
	"path/filepath"
	"strings"
)

// address is where a sound server may listen: a network and an address as net.Dial
// takes them.
type address struct{ network, addr string }

// tcpPort is that of a PulseAudio server that is named without one.
const tcpPort = "4713"

// addresses returns where to look for a sound server: what PULSE_SERVER names, or
// else the socket in the user's folder for such things. Source: PulseAudio's manual,
// server strings; from memory.
func addresses(env func(string) string, host string) []address {
	if s := env("PULSE_SERVER"); s != "" {
		var out []address
		for _, one := range strings.Fields(s) {
			if a, ok := parseServer(one, host); ok {
				out = append(out, a)
			}
		}
		return out
	}
	if dir := env("XDG_RUNTIME_DIR"); filepath.IsAbs(dir) {
		return []address{{"unix", filepath.Join(dir, "pulse", "native")}}
	}
	return nil
}

// parseServer reads one server string: {machine}unix:/path, /path, tcp:host:port,
// host.
func parseServer(s, host string) (address, bool) {
	if rest, ok := strings.CutPrefix(s, "{"); ok {
		machine, after, found := strings.Cut(rest, "}")
		if !found || machine != host && machine != machineID() {
			return address{}, false
		}
		s = after
	}
	if s == "" {
		return address{}, false
	}
	if path, ok := strings.CutPrefix(s, "unix:"); ok {
		return address{"unix", path}, filepath.IsAbs(path)
	}
	if strings.HasPrefix(s, "/") {
		return address{"unix", s}, true
	}
	network := "tcp"
	for _, n := range []string{"tcp4", "tcp6", "tcp"} {
		if rest, ok := strings.CutPrefix(s, n+":"); ok {
			network, s = n, rest
			break
		}
	}
	if _, _, err := net.SplitHostPort(s); err != nil {
		s = net.JoinHostPort(strings.Trim(s, "[]"), tcpPort)
	}
	return address{network, s}, true
}

func machineID() string {
	b, _ := os.ReadFile("/etc/machine-id")
	return strings.TrimSpace(string(b))
}

// cookieLength is that of the secret by which a server knows its user.
const cookieLength = 256

// cookie returns the user's secret, or zeros where there is none: a server on this
// machine knows the user by the socket.
func cookie(env func(string) string) []byte {
	var paths []string
	if p := env("PULSE_COOKIE"); p != "" {
		paths = append(paths, p)
	}
	if home := env("HOME"); home != "" {
		paths = append(paths, filepath.Join(home, ".config", "pulse", "cookie"), filepath.Join(home, ".pulse-cookie"))
	}
	for _, p := range paths {
		if b, err := os.ReadFile(p); err == nil && len(b) == cookieLength {
			return b
		}
	}
	return make([]byte, cookieLength)
}
