// Package simtest has the systems and sites that tests of the simulation share, and no
// test of its own.
//
//   - [OneGroup] is one group of drives that are restored by a law, and nothing else.
//   - [Chained] is a choice of which the Markov chain has the exact loss chance.
//   - [OftenFailing] is a site whose drives fail often, and [Sites] are changes to it that
//     reach every rule of failure and repair between them.
//   - [RareSites] are sites that seldom lose anything, with how seldom.
//   - [DrawSite] draws a site at random, and [CheckSites] checks a property of many.
//   - [Mean] and [Follows] compare what was drawn with its mean and its law.
package simtest
