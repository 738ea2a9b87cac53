//go:build unix

package speaker

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
)

func TestAddresses(t *testing.T) {
	t.Parallel()
	tests := []struct {
		name string
		env  map[string]string
		want []address
	}{
		{"runtime-folder", map[string]string{"XDG_RUNTIME_DIR": "/run/user/7"}, []address{{"unix", "/run/user/7/pulse/native"}}},
		{"nothing-known", nil, nil},
		{"relative-folder", map[string]string{"XDG_RUNTIME_DIR": "run"}, nil},
		{"named-socket", map[string]string{"XDG_RUNTIME_DIR": "/run/user/7", "PULSE_SERVER": "unix:/mnt/sound"}, []address{{"unix", "/mnt/sound"}}},
		{"bare-path", map[string]string{"PULSE_SERVER": "/tmp/s"}, []address{{"unix", "/tmp/s"}}},
		{"relative-socket", map[string]string{"PULSE_SERVER": "unix:sound"}, nil},
		{"host", map[string]string{"PULSE_SERVER": "cellar"}, []address{{"tcp", "cellar:4713"}}},
		{"tcp-with-port", map[string]string{"PULSE_SERVER": "tcp:10.0.0.2:99"}, []address{{"tcp", "10.0.0.2:99"}}},
		{"tcp6", map[string]string{"PULSE_SERVER": "tcp6:[::1]"}, []address{{"tcp6", "[::1]:4713"}}},
		{"several", map[string]string{"PULSE_SERVER": "unix:/a tcp4:b"}, []address{{"unix", "/a"}, {"tcp4", "b:4713"}}},
		{"this-machine", map[string]string{"PULSE_SERVER": "{kitchen}unix:/a {cellar}unix:/b"}, []address{{"unix", "/a"}}},
		{"broken", map[string]string{"PULSE_SERVER": "{kitchen"}, nil},
		{"machine-alone", map[string]string{"PULSE_SERVER": "{kitchen}"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			t.Parallel()
			if got := addresses(func(k string) string { return tt.env[k] }, "kitchen"); !slices.Equal(got, tt.want) {
				t.Errorf("addresses = %v, want %v", got, tt.want)
			}
		})
	}
}

func TestCookie(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	right := slices.Repeat([]byte{7}, cookieLength)
	for name, data := range map[string][]byte{"right": right, "short": {1, 2, 3}} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	zeros := make([]byte, cookieLength)
	for name, want := range map[string][]byte{"right": right, "short": zeros, "missing": zeros} {
		got := cookie(func(k string) string {
			if k == "PULSE_COOKIE" {
				return filepath.Join(dir, name)
			}
			return ""
		})
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v…, want %v…", name, got[:4], want[:4])
		}
	}
}
