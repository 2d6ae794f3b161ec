package server_test

import (
	"encoding/csv"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/kitchen"
)

func TestTheFiguresLineByLineAreAFileToKeep(t *testing.T) {
	h := newHouse(t)
	_, dish := h.furnish()
	for _, format := range kitchen.AccountFormats() {
		link := dish + "/versions/1/figures?format=" + format
		assert.Contains(t, h.get(dish).body, `href="`+link+`"`)
		r := h.get(link)
		assert.Contains(t, r.Header.Get("Content-Disposition"), "attachment")
		assert.Equal(t, "no-store", r.Header.Get("Cache-Control"))
		switch format {
		case "csv":
			rows, err := csv.NewReader(strings.NewReader(r.body)).ReadAll()
			require.NoError(t, err)
			assert.Greater(t, len(rows), 100)
		case "json":
			var acc kitchen.Account
			require.NoError(t, json.Unmarshal([]byte(r.body), &acc))
			assert.Len(t, acc.Members, 2)
			assert.Equal(t, kitchen.Caution, acc.Caution)
		default:
			assert.Contains(t, r.body, kitchen.Caution)
			assert.Contains(t, r.body, "Plate of Ana")
		}
	}
}
