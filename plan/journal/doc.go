// Package journal keeps what happened in a file that only grows, so that a
// killed process, a crash or a power cut loses nothing that was confirmed. It
// knows nothing of what it keeps: a payload is one line of JSON.
//
// # Format
//
// A file of lines, each one record, each ending in a newline (0x0A):
//
//	{"n":17,"crc":"9f3a01bc","data":{"kind":"started",…}}
//
//	n     sequence number, decimal without leading zeros: 1, 2, 3, … without gap
//	crc   CRC-32C (Castagnoli) over n as eight bytes, most significant first,
//	      followed by the bytes of data; eight lower-case hexadecimal digits
//	data  the payload: one JSON value, byte for byte as it was handed in, with
//	      no newline in it
//
// The three keys stand in this order and without spaces: a line has one
// spelling only, and whoever looks at the file can still read it.
//
// # Assumptions
//
//  1. When Sync returns without error, the bytes written before it survive.
//  2. When SyncDir returns without error, so do the names in that directory.
//  3. What was written and not synced may survive in part: a part of its front,
//     with zeros in it where the length was kept and the bytes were not.
//  4. After a Sync that failed nothing is known of what was written before it,
//     and a later Sync that succeeds does not change that.
//  5. A rename puts the new file in the place of the old one or does nothing.
//  6. There is one writer: whoever writes holds the Lock.
//
// # Writing
//
// Append writes one record behind the last good one and syncs before it
// returns. If the write falls short, the file is cut back to the last good
// record and synced, and the next Append may succeed (a disk that was full has
// room again). If that fails too, or if a sync fails, the writer refuses all
// further appends with ErrReopen: a half record never has a good one behind it.
//
// # States after a crash
//
//   - no file, or an empty one: nothing was confirmed
//   - good records only: all confirmed ones; the last may be one that was not
//     confirmed but is whole
//   - good records and one torn line at the end: the record that was being
//     written; it was not confirmed
//
// Anything else is damage, which no crash leaves behind under the assumptions.
//
// # Recovery
//
//  1. Make the folder, and sync the names that lead to it.
//  2. If there is no file, create it, sync it and sync the folder; done.
//  3. Read lines from the front, as long as each parses, has the next number and
//     the right CRC. A last line without a newline or with a wrong CRC is torn.
//     A bad line with anything behind it, or a wrong number under a right CRC, is
//     damage: stop with a DamagedError and change nothing. RecoverBefore goes on
//     from before it, when the user asks for that.
//  4. Cut a torn line off.
//  5. Sync the file, for what was read may not have been synced by a process
//     that was killed; then sync the folder.
package journal
