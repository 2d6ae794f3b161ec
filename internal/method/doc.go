// Package method reads and rewrites the steps of a recipe: which words speak of
// which ingredient line, what stands in their place after a swap, and how long
// and under which lid the dish cooks.
//
// It knows kitchen English, not grammar: a step is cut into sentences, these
// into clauses that each start with a verb of cooking, and a clause into noun
// phrases in lists. Where that does not hold, it errs towards leaving a sentence
// out over telling the cook to add what is gone, and says so in a note. A step
// that speaks of no changed line is never touched.
package method
