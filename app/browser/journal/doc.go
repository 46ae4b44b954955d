// Package journal keeps small documents in a store that several tabs write at
// the same time and that may be killed, filled, emptied or damaged at any
// moment. It is pure Go: a browser gives it an [Area], tests give it a [Fake].
//
// # The protocol
//
// Every edit of a document is one row under a key of its own,
//
//	1|ID|CLOCK|WRITER      ->  CHECKSUM BODY
//
// and a row is never written a second time with another value. CLOCK is a
// Lamport clock: one more than the highest that its writer had seen. WRITER is
// drawn afresh by each page that is opened. The row with the highest (CLOCK,
// WRITER) is what the document is; a row whose body is null says that the
// document was deleted. From that follows:
//
//   - Two tabs never write the same key, so neither can overwrite the other.
//     The same document edited in both is what the later edit made it; all
//     other documents are simply both there.
//   - A row is removed only after a newer row of the same document has been
//     stored, and only that very row, by its key. A removal can therefore never
//     hit an edit that it has not seen. A page killed between the two leaves an
//     old row behind, which reading ignores and the next save clears away.
//   - A row that is torn or damaged fails its checksum. It is set aside, not
//     deleted, and the page offers it for download; all others are read.
//   - What could not be stored (no room left) stays in the page and goes with
//     every later save until one succeeds.
//   - One more row, "epoch", is written with the first save. When it is gone or
//     another one, the store was emptied under the page; what the page still
//     holds is then saved again with its next save.
//
// Deleted documents leave a small row. When there are more than 256 of them the
// oldest go at the next save, so a store does not grow without end.
package journal
