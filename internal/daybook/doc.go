// Package daybook is the log of a household's days: what each member has eaten or
// plans to eat, what that leaves of a day's limits, what lies in the freezer, and how
// a dish turned out when it was made.
package daybook
