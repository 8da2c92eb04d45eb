package array

// AddQuadrupleParity adds a made-up layout to the table, as its row would stand
// there, and returns what takes it out again.
func AddQuadrupleParity() (Level, func()) {
	before := levels
	levels = append(levels[:len(levels):len(levels)],
		row{name: "quadruple parity", parity: 4, least: 6, width: Width{6, 20}, widthWords: "with quadruple parity"})
	return Level(len(before)), func() { levels = before }
}
