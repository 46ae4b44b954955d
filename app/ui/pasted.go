package ui

// Pasted is a label's text that a person pasted.
type Pasted struct {
	Text string
}

func (c Convert) paste(text string) Convert {
	c.Pasted.Text = text
	return c
}
