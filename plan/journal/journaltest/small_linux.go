package journaltest

import (
	"os"
	"syscall"
	"testing"
)

// Small mounts a real file system of 64 kB until the test is over. Mounting takes root
// or a user namespace: without, the test is skipped, but fails where CI is set.
func Small(t *testing.T) (at string) {
	t.Helper()
	at = t.TempDir()
	if err := syscall.Mount("tmpfs", at, "tmpfs", 0, "size=64k"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("a small file system cannot be mounted, and CI skips nothing: %v", err)
		}
		t.Skipf("a small file system cannot be mounted here: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(at, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	return at
}
