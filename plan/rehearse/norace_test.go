//go:build !race

package rehearse_test

const racing = false
