package draw

// Colours of the page, which its style sheet shares.
const (
	Paper = "#ffffff"
	Ink   = "#22303a"
	Faint = "#dde3e6"
	Muted = "#5a6872"
	Pale  = "#b4c1c7" // dark enough to be seen and light enough to stay behind
)

// Colours of what is drawn.
const (
	Teal       = "#0f5c7a"
	Orange     = "#c2571a"
	Violet     = "#7a4fa3"
	Leaf       = "#3f8f5b"
	Madder     = "#a8324a"
	Cornflower = "#4a6fd0"
	Gold       = "#8a6d14"
	Slate      = "#5b646e"
)

// Palette are the colours of choices in their order. They keep apart for the common
// kinds of colour blindness by lightness as well as by hue, and are dark enough for
// thin lines on paper.
var Palette = []string{Teal, Orange, Violet, Leaf, Madder, Cornflower, Gold, Slate}
