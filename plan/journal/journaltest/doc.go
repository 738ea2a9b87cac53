// Package journaltest has a file system in memory that fails, fills up and
// crashes on demand, and then forgets a random part of what was not synced. It
// keeps to the assumptions in the comment of package journal, and makes the
// worst of them.
package journaltest
