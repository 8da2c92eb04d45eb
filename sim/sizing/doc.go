// Package sizing goes from the cameras of a site to the fewest drives that hold their
// footage, without simulating: [Suggest] fits every drive in every layout, and says in
// sentences what the figures rest on.
package sizing
