// Package answer says in sentences what a comparison comes to: what to buy, how sure that
// is, and why. Tables on the terminal, the report and the sheet for a customer all say it
// in these words.
//
// [Of] answers a comparison. Chances are those in all, over the doubt about the inputs,
// where that was worked out, and as entered where it was not.
//
// # One class of reference for all
//
// Chances are told as so many of 10 000 sites like this, the same number for every choice,
// beside the odds: of “1 in 770” and “1 in 2 100” people often take the greater number
// for the greater chance. See S. Pighin, L. Savadori, E. Barilli, L. Cremonesi, M.
// Ferrari, J.-F. Bonnefon, “The 1-in-X effect on the subjective assessment of medical
// probabilities”, Medical Decision Making 31, 2011, which found that a picture with an
// icon for each of the class cures it (from memory).
//
// # Digits
//
// No figure has more digits than a twentieth of it supports: the doubt leaves no more.
package answer
