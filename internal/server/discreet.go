package server

import (
	"context"
	"fmt"
	"log/slog"
	"regexp"
)

// quoted is text in quotation marks, as %q writes it: in an error that is what someone
// typed.
var quoted = regexp.MustCompile(`"(?:[^"\\]|\\.)*"`)

// discreet leaves out of errors, on their way into the log, what they quote: names, foods,
// titles. The person who typed it is shown the error whole where it is theirs to mend.
type discreet struct{ slog.Handler }

// Handle passes a record on without what its errors quote.
func (d discreet) Handle(ctx context.Context, r slog.Record) error {
	out := slog.NewRecord(r.Time, r.Level, r.Message, r.PC)
	r.Attrs(func(a slog.Attr) bool {
		out.AddAttrs(withoutQuotes(a))
		return true
	})
	return d.Handler.Handle(ctx, out)
}

// WithAttrs and WithGroup stay discreet.
func (d discreet) WithAttrs(attrs []slog.Attr) slog.Handler {
	kept := make([]slog.Attr, len(attrs))
	for i, a := range attrs {
		kept[i] = withoutQuotes(a)
	}
	return discreet{d.Handler.WithAttrs(kept)}
}

// WithGroup is WithAttrs for a group.
func (d discreet) WithGroup(name string) slog.Handler { return discreet{d.Handler.WithGroup(name)} }

func withoutQuotes(a slog.Attr) slog.Attr {
	if a.Key == "error" || a.Key == "panic" {
		return slog.String(a.Key, quoted.ReplaceAllLiteralString(fmt.Sprint(a.Value.Any()), `"…"`))
	}
	return a
}
