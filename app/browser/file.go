package browser

// File is a file that the person chose.
type File struct {
	Name    string
	Text    string // as UTF-8; bytes that are none have become U+FFFD
	Size    int    // bytes of the whole file
	TooLong bool   // longer than the limit: not read
	Failed  bool   // the browser could not read it
}
