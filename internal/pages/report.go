package pages

import (
	"bytes"
	"fmt"
	"slices"

	"github.com/gin-gonic/gin"

	"potwright/internal/kitchen"
)

// exportFigures is a version's figures line by line, as a file: format is text,
// csv or json. Everyone's plate stands in it where there are people.
func (s *Site) exportFigures(c *gin.Context) error {
	format := c.DefaultQuery("format", "text")
	if !slices.Contains(kitchen.AccountFormats(), format) {
		return kitchen.ErrNotFound
	}
	o, err := s.openNamed(c)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	account := s.kitchen.Check(o.analysis, o.household).Account(o.analysis)
	if err := kitchen.WriteAccounts(&b, format, account); err != nil {
		return fmt.Errorf("version %d: %w", o.version.ID, err)
	}
	kind := map[string]string{"text": "text/plain; charset=utf-8", "csv": "text/csv; charset=utf-8; header=present", "json": "application/json"}
	end := map[string]string{"text": "txt", "csv": "csv", "json": "json"}
	sendFile(c, fmt.Sprintf("figures-%d-version-%d.%s", o.recipeID, o.version.Number, end[format]), kind[format], b.Bytes())
	return nil
}
