// Package shopping is what to buy for several dishes: the same food once, its
// amounts put together as a shop sells them.
package shopping
