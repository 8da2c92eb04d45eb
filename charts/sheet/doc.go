// Package sheet writes one A4 page to hand to a customer: the question, the
// recommendation, one picture, what it means for ten thousand sites like this, the price,
// what matters most of what was assumed, the cautions, and a place for date and signature.
//
// The sentences are those of package answer. The drawings are SVG that is made here: the
// page has no script, so that it prints as it is seen. Whatever it says is cut to a length
// that keeps it one page; the report has the rest. Nothing rests on colour alone: choices
// go by their numbers and shapes, the recommended one is called so, and what is drawn
// differs in lightness.
package sheet
