package cli

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"

	"potwright/internal/adaptation"
	"potwright/internal/certificate"
	"potwright/internal/diagnostic"
	"potwright/internal/kitchen"
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
// and prints it; where the adapted recipe is given, its limits' sums are held
// against the figures of the recipe's text.
func proofs(r *run) (int, error) {
	var name string
	o, err := r.parse("check", func(f *flag.FlagSet) {
		f.StringVar(&name, "certificate", "", "a file that adapt --certificate wrote")
	})
	if err != nil {
		return exitDone, err
	}
	if len(o.files) > 1 {
		return exitDone, badInput("--certificate is held against one recipe; %d are given", len(o.files))
	}
	text, err := r.body(name)
	if err != nil {
		return exitDone, err
	}
	var c certificate.Certificate
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		fault := diagnostic.JSON([]byte(text), err)
		fault.Problem = "not a proof: " + fault.Problem
		fault.Expected = "the file that potwright adapt --certificate wrote"
		return exitDone, inFile(name, diagnostic.Faults{fault})
	}
	report, err := certificate.Check(c)
	if err != nil {
		return exitDone, badInput("%s: the proof does not stand: %v", name, err)
	}
	if len(o.files) == 1 {
		if err := r.each(o, func(_ *kitchen.Kitchen, a kitchen.Analysis) error { return a.Agrees(c) }); err != nil {
			return exitDone, badInput("%s and %s: %v", name, o.files[0], err)
		}
	}
	if o.format == "json" {
		return exitDone, r.json(map[string]any{"stands": true, "fits": c.Chosen != nil, "cost": report.Cost, "cases": len(report.Closed)})
	}
	return exitDone, certificate.Write(r.out, c, report)
}
