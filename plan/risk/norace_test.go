//go:build !race

package risk_test

// racing is described in race_test.go.
const racing = false
