//go:build race

package risk_test

// racing: the race detector makes everything ten times as long, and sees as much in
// a part of it.
const racing = true
