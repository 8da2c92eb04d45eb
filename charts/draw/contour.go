package draw

import (
	"math"
	"slices"
)

// side is one side of a cell of the grid: that from point (i, j) to the right, or
// up from it.
type side struct {
	i, j int
	up   bool
}

// ContourLines returns the lines along which z has a level, each as its points. z is
// asked for z(i, j) at xs[i] and ys[j], which ascend, and is NaN where there is
// nothing: cells with such a corner have no line. The method is marching squares,
// with straight lines within the cells, joined to as long lines as there are.
func ContourLines(xs, ys []float64, z func(i, j int) float64, level float64) [][][2]float64 {
	next := map[side][]side{}
	var order []side // in which they are met, so that the same map gives the same lines
	link := func(a, b side) {
		for _, s := range []side{a, b} {
			if next[s] == nil {
				order = append(order, s)
			}
		}
		next[a], next[b] = append(next[a], b), append(next[b], a)
	}
	for j := 0; j+1 < len(ys); j++ {
		for i := 0; i+1 < len(xs); i++ {
			a, b, c, d := z(i, j)-level, z(i+1, j)-level, z(i+1, j+1)-level, z(i, j+1)-level
			if math.IsNaN(a + b + c + d) {
				continue
			}
			low, right, high, left := side{i, j, false}, side{i + 1, j, true}, side{i, j + 1, false}, side{i, j, true}
			var cut []side
			for _, s := range []struct {
				p, q float64
				side
			}{{a, b, low}, {b, c, right}, {d, c, high}, {a, d, left}} {
				if (s.p >= 0) != (s.q >= 0) {
					cut = append(cut, s.side)
				}
			}
			switch len(cut) {
			case 2:
				link(cut[0], cut[1])
			case 4: // a saddle: the middle says which corners go together
				if (a+b+c+d >= 0) == (a >= 0) {
					link(low, right)
					link(high, left)
				} else {
					link(low, left)
					link(right, high)
				}
			}
		}
	}
	at := func(s side) [2]float64 {
		p := z(s.i, s.j) - level
		if s.up {
			q := z(s.i, s.j+1) - level
			return [2]float64{xs[s.i], ys[s.j] + (ys[s.j+1]-ys[s.j])*p/(p-q)}
		}
		q := z(s.i+1, s.j) - level
		return [2]float64{xs[s.i] + (xs[s.i+1]-xs[s.i])*p/(p-q), ys[s.j]}
	}
	var lines [][][2]float64
	walked := map[side]bool{}
	walk := func(from side) {
		line := [][2]float64{at(from)}
		walked[from] = true
		for now := from; ; {
			on := false
			for _, s := range next[now] {
				if !walked[s] {
					walked[s] = true
					line, now, on = append(line, at(s)), s, true
					break
				}
			}
			if !on {
				if len(line) > 2 && slices.Contains(next[now], from) { // a ring
					line = append(line, line[0])
				}
				break
			}
		}
		lines = append(lines, line)
	}
	for _, s := range order { // open lines first, from their ends
		if !walked[s] && len(next[s]) == 1 {
			walk(s)
		}
	}
	for _, s := range order {
		if !walked[s] {
			walk(s)
		}
	}
	return lines
}
