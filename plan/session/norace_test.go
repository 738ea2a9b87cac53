//go:build !race

package session_test

const racing = false
