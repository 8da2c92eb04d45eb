package flags

import (
	"strconv"
	"strings"

	"arrayodds/array/unit"
	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
)

// MostParts bounds the parts of a question.
const MostParts = 10_000

// MostBlocks bounds the blocks of a run: of as many trials as --max-trials takes.
const MostBlocks = 10_000_000_000 / engine.TrialsPerBlock

// Blocks returns the value of --blocks; 0 where it is not given.
func (r Reader) Blocks() int { return WholeNumber(r, "blocks", 1, MostBlocks, 0) }

// Part returns the value of --part; false where it is not given or cannot be read.
func (r Reader) Part() (share divide.Share, ok bool) {
	if !r.IsSet("part") {
		return share, false
	}
	if !r.IsSet("blocks") {
		r.Wrong("found --part without --blocks; right would be both: parts have a share of a fixed number of blocks, such as --blocks 1024")
	}
	text := r.String("part")
	number, of, _ := strings.Cut(text, "/")
	var err, err2 error
	share.Number, err = strconv.Atoi(strings.TrimSpace(number))
	share.Of, err2 = strconv.Atoi(strings.TrimSpace(of))
	if err != nil || err2 != nil || share.Of < 1 || share.Of > MostParts || share.Number < 1 || share.Number > share.Of {
		r.Wrong("--part: found %s; right would be a part and how many there are, such as 3/8: from 1/8 to 8/8, and at most %d", unit.Quote(text), MostParts)
		return divide.Share{}, false
	}
	return share, true
}
