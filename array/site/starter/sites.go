package starter

import _ "embed" // the files

//go:embed shop.toml
var shop string

//go:embed depot.toml
var depot string

//go:embed terminal.toml
var terminal string

// Site is an invented site to begin with.
type Site struct {
	Name  string `json:"name"`  // of a few letters
	Title string `json:"title"` // what it is
	Says  string `json:"says"`  // one sentence on it
	Text  string `json:"text"`  // the file
}

// Sites returns the invented sites, that of [Text] first.
func Sites() []Site {
	return []Site{
		{"school", "A school, with each figure explained", "Two groups of cameras and three choices; each line says what to ask and where the answer is found.", text},
		{"shop", "A small shop", "Six cameras and one recorder with a few drives, in as few lines as will do.", shop},
		{"depot", "A depot of middle size", "Forty cameras, a recorder of twelve bays, a fleet's own record of failures, and what else money can buy.", depot},
		{"terminal", "A large terminal", "More than two hundred cameras, groups of drives with hot spares, and figures given as ranges.", terminal},
	}
}
