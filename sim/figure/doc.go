// Package figure writes numbers as people read them, with as many digits as their
// interval supports.
//
// [Number] and [Interval] write a figure and its interval, [Odds] and [OddsInterval] a
// chance as odds, [Ratio] and [RatioInterval] how many times one thing is another,
// [Exact] a figure without an interval, [Whole] a count or a price. [Count], [List]
// and the rest of words.go put them into sentences.
//
// # Rounding
//
// An estimate of 0.00046958 that could as well be 0.000447 or 0.000493 is written
// 4.7 × 10⁻⁴, and as odds 1 in 2 100: further digits would be an invention. The rule
// is one for every figure of the report ([Place]): the last digit kept stands at the
// place of the first digit of the half-width. A closed form has no half-width and gets
// four significant digits, never fewer than its whole part. Interval ends get one
// digit more than their figure and are rounded outward, so that what is printed covers
// what was computed.
package figure
