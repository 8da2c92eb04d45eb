package sweep

import (
	"context"
	"math"

	"arrayodds/sim/engine"
)

const (
	// firstRound is the blocks of a first round, as of a run: 512 trials, 4 a bundle,
	// which is enough for the intervals to be what they say.
	firstRound = engine.FirstRound
	// overrun is how many times the trials that it needed a point runs beside those
	// that need more.
	overrun = 4
	// minPointWork is what any point may take, about a second.
	minPointWork int64 = 1e7
)

// run runs rounds until no point has to go on.
func (s *Series) run(ctx context.Context) error {
	if s.opt.Blocks > 0 {
		return s.runFixed(ctx)
	}
	if s.work == 0 {
		s.work = s.opt.MaxWork
	}
	if s.work == 0 {
		s.work = max(minPointWork, engine.MaxRunWork/int64(max(1, len(s.unique))))
	}
	pool := newPool(s)
	for _, c := range s.curves {
		c.goal = min(firstRound, s.budget)
	}
	for {
		var pieces []piece
		for _, c := range s.curves {
			pieces = append(pieces, s.piecesOf(c.members, c.goal)...)
		}
		if len(pieces) == 0 {
			break
		}
		if err := pool.do(ctx, pieces); err != nil {
			return err
		}
		for _, c := range s.curves {
			c.goal = s.nextGoal(c)
		}
	}
	s.report(1)
	return nil
}

// piecesOf returns what is to be done for points to have so many blocks, or as many
// as they may.
func (s *Series) piecesOf(members []*member, blocks int) (list []piece) {
	for _, m := range members {
		to := s.limit(m, blocks)
		length := int(max(1, min(longestPiece, pieceWork/m.perBlock())))
		for from := m.blocks; from < to; from += length {
			list = append(list, piece{of: m, from: from, to: min(to, from+length)})
		}
	}
	return list
}

// limit returns how many blocks a point runs, of the goal that the points of its
// curve have.
func (s *Series) limit(m *member, goal int) int {
	switch {
	case m.err != nil || m.spent:
		return m.blocks
	case m.enough > 0:
		goal = min(goal, overrun*m.enough)
	}
	if m.blocks > 0 {
		goal = int(min(int64(goal), s.work/m.perBlock()))
	}
	return max(m.blocks, min(goal, s.budget))
}

// nextGoal returns the number of blocks that the points of a curve that are not
// accurate enough yet should have next; 0 where there are none.
func (s *Series) nextGoal(c *curve) (goal int) {
	for _, m := range c.members {
		if m.converged(s.opt.Accuracy) {
			if m.enough == 0 {
				m.enough = m.blocks
			}
			continue
		}
		m.enough = 0
		if m.err == nil && !m.spent {
			goal = max(goal, engine.NextBlocks(m.blocks, m.halfWidth(), s.opt.Accuracy))
		}
	}
	return goal
}

// progress reports the share of the work that is done. Points that have not
// begun are taken to need what the others need.
func (s *Series) progress() {
	if s.opt.Progress == nil {
		return
	}
	done, expected, begun := 0.0, 0.0, 0
	for _, m := range s.unique {
		if m.blocks == 0 {
			continue
		}
		begun++
		need := float64(m.blocks)
		if m.enough == 0 && m.err == nil && !m.spent && !m.converged(s.opt.Accuracy) {
			more := m.halfWidth() / s.opt.Accuracy
			need *= math.Max(1.25, math.Min(1e4, 1.05*more*more))
			need = math.Min(need, float64(min(int64(s.budget), max(int64(m.blocks), s.work/m.perBlock()))))
		}
		done += float64(m.sums.Work)
		expected += need * float64(m.perBlock())
	}
	if begun == 0 {
		return
	}
	expected *= float64(len(s.unique)) / float64(begun)
	s.report(math.Min(0.99, done/expected))
}

// report tells Options.Progress the share of the work that is done, which never
// falls.
func (s *Series) report(share float64) {
	if s.opt.Progress == nil {
		return
	}
	s.share = math.Max(s.share, share)
	p := engine.Progress{Share: s.share}
	for _, m := range s.unique {
		p.Trials += int(m.sums.N)
		if m.err == nil {
			p.Accuracy = math.Max(p.Accuracy, m.halfWidth())
		}
	}
	s.opt.Progress(p)
}
