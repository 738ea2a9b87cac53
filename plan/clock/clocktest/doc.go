// Package clocktest has a clock that is turned by hand, for tests.
package clocktest
