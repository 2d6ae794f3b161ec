package cli

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"

	"potwright/internal/adaptation"
	"potwright/internal/certificate"
)

// writeCertificate writes an answer's proof as JSON, after the checker has
// accepted it.
func writeCertificate(name string, ans adaptation.Answer) error {
	if ans.Certificate == nil {
		return errors.New("there is no proof to write down: the search was stopped, or what stands in the way is no limit")
	}
	if _, err := certificate.Check(*ans.Certificate); err != nil {
		return fmt.Errorf("the proof does not stand: %w", err)
	}
	text, err := json.MarshalIndent(ans.Certificate, "", " ")
	if err != nil {
		return fmt.Errorf("write the proof down: %w", err)
	}
	if err := os.WriteFile(name, append(text, '\n'), 0o644); err != nil {
		return fmt.Errorf("write the proof down: %w", err)
	}
	return nil
}

// proofs verifies a proof written by adapt --certificate, without any search,
// and prints it.
func proofs(r *run) (int, error) {
	var name string
	o, err := r.parse("check", false, func(f *flag.FlagSet) {
		f.StringVar(&name, "certificate", "", "a file that adapt --certificate wrote")
	})
	if err != nil {
		return exitDone, err
	}
	if len(o.files) > 0 {
		return exitDone, badInput("--certificate is checked by itself, without a recipe; %q is one too many", o.files[0])
	}
	text, err := r.body(name)
	if err != nil {
		return exitDone, err
	}
	var c certificate.Certificate
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		return exitDone, badInput("%s: not a proof that adapt --certificate wrote: %v", name, err)
	}
	report, err := certificate.Check(c)
	if err != nil {
		return exitDone, badInput("%s: the proof does not stand: %v", name, err)
	}
	if o.format == "json" {
		return exitDone, r.json(map[string]any{"stands": true, "fits": c.Chosen != nil, "cost": report.Cost, "cases": len(report.Closed)})
	}
	return exitDone, certificate.Write(r.out, c, report)
}
