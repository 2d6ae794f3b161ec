package kitchen

import (
	"encoding/json"
	"fmt"
	"io"
)

// AccountFormats are the ways an account is written: for people, as one table
// (RFC 4180), as one JSON object a line.
func AccountFormats() []string { return []string{"text", "csv", "json"} }

// WriteAccounts writes accounts in one of AccountFormats, one after the other.
func WriteAccounts(w io.Writer, format string, accounts ...Account) error {
	switch format {
	case "csv":
		return WriteAccountsCSV(w, accounts...)
	case "json":
		return writeAccountsJSON(w, accounts)
	case "text":
		for i, a := range accounts {
			if i > 0 {
				if _, err := fmt.Fprintln(w); err != nil {
					return fmt.Errorf("write the figures line by line: %w", err)
				}
			}
			if err := a.WriteText(w); err != nil {
				return err
			}
		}
		return nil
	}
	return fmt.Errorf("the format %q is not known; expected text, csv or json", format)
}

func writeAccountsJSON(w io.Writer, accounts []Account) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	for _, a := range accounts {
		if err := enc.Encode(a); err != nil {
			return fmt.Errorf("write the figures line by line: %w", err)
		}
	}
	return nil
}
