//go:build !race

package review_test

const racing = false
