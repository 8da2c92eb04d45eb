// Package choose draws the search for the cheapest design that meets a goal: the
// recommendation, the front of cost against chance, and every design on it.
package choose
