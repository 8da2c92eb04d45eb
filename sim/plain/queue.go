package plain

import "math"

// queue tells which of the drives comes to its next event first. Drives without one are
// not in it.
type queue struct {
	at    []float64 // by drive; +Inf where it is not in the queue
	heap  []int     // drives, each not later than those at twice its place and one further
	place []int     // of each drive in heap, from 1; 0 where it is not
}

// newQueue returns an empty queue for so many drives.
func newQueue(drives int) queue {
	q := queue{at: make([]float64, drives), heap: make([]int, 1, drives+1), place: make([]int, drives)}
	for i := range q.at {
		q.at[i] = math.Inf(1)
	}
	return q
}

// first returns the drive that is first, of several at one time the one with the lowest
// number, and its time: +Inf where there is none.
func (q *queue) first() (drive int, at float64) {
	if len(q.heap) == 1 {
		return -1, math.Inf(1)
	}
	return q.heap[1], q.at[q.heap[1]]
}

// clear takes all drives out.
func (q *queue) clear() {
	for _, i := range q.heap[1:] {
		q.at[i], q.place[i] = math.Inf(1), 0
	}
	q.heap = q.heap[:1]
}

// set puts a drive where its time asks for; +Inf takes it out.
func (q *queue) set(drive int, at float64) {
	k := q.place[drive]
	if math.IsInf(at, 1) {
		if k > 0 {
			q.remove(k)
		}
		return
	}
	before := q.at[drive]
	q.at[drive] = at
	switch {
	case k == 0:
		q.heap = append(q.heap, drive)
		q.up(len(q.heap) - 1)
	case at < before:
		q.up(k)
	default:
		q.down(k)
	}
}

// remove takes the drive at a place out.
func (q *queue) remove(k int) {
	gone, last := q.heap[k], len(q.heap)-1
	moved := q.heap[last]
	q.heap = q.heap[:last]
	q.at[gone], q.place[gone] = math.Inf(1), 0
	if k == last {
		return
	}
	q.heap[k] = moved
	q.up(k)
	if q.heap[k] == moved {
		q.down(k)
	}
}

// before reports whether a drive comes before another one.
func (q *queue) before(a, b int) bool {
	return q.at[a] < q.at[b] || q.at[a] == q.at[b] && a < b
}

// up moves the drive at a place towards the front for as long as it comes before.
func (q *queue) up(k int) {
	drive := q.heap[k]
	for k > 1 && q.before(drive, q.heap[k/2]) {
		q.put(k, q.heap[k/2])
		k /= 2
	}
	q.put(k, drive)
}

// down moves the drive at a place away from the front for as long as it comes after.
func (q *queue) down(k int) {
	drive := q.heap[k]
	for 2*k < len(q.heap) {
		next := 2 * k
		if next+1 < len(q.heap) && q.before(q.heap[next+1], q.heap[next]) {
			next++
		}
		if !q.before(q.heap[next], drive) {
			break
		}
		q.put(k, q.heap[next])
		k = next
	}
	q.put(k, drive)
}

func (q *queue) put(k, drive int) { q.heap[k], q.place[drive] = drive, k }
