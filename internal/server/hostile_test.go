package server_test

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"context"
	"crypto/sha256"
	"encoding/csv"
	"fmt"
	"hash/crc32"
	"io"
	"log/slog"
	"net"
	"net/http"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/gin-gonic/gin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/recipe"
	"potwright/internal/server"
)

// Cells that a spreadsheet would run (OWASP, CSV Injection) wherever a person types.
func TestNoCellOfTheFiguresIsAFormula(t *testing.T) {
	h := newHouse(t)
	base, dish := h.furnish()
	lines := []string{`=HYPERLINK("http://elsewhere.example","1 cup milk")`, "@SUM(1+1) cups milk", "+1 cup milk", "-2 cups milk", "＝1+1 cup milk", "'1 cup milk"}
	h.must(base+"/people/1", "name", "=1+1 Ana", "portion", "1")
	text := "=cmd|' /C calc'!A0\n\nServes 2\n\nIngredients\n" + strings.Join(lines, "\n") + "\n\nMethod\nStir.\n"
	other, _, _ := strings.Cut(h.must(base+"/recipes/new", "text", text), "?")
	require.NotEqual(t, dish, other)
	saved, err := h.store.FindVersion(t.Context(), 1, 2)
	require.NoError(t, err)
	kept, err := recipe.Parse(saved.Text)
	require.NoError(t, err)
	for _, link := range []string{other + "/versions/2/figures?format=csv", "/api/v1/households/1/versions/2/figures.csv"} {
		r := h.get(link)
		require.Equal(t, http.StatusOK, r.StatusCode)
		rows, err := csv.NewReader(strings.NewReader(r.body)).ReadAll()
		require.NoError(t, err)
		texts := map[string]bool{}
		for _, row := range rows {
			for _, cell := range row {
				if _, err := strconv.ParseFloat(cell, 64); err == nil {
					continue
				}
				assert.NotContains(t, "=+-@\t\r\n＝＋－＠", firstSign(cell), "%s: %q", link, cell)
			}
			if row[1] == "line" {
				texts[strings.TrimPrefix(row[3], "'")] = true
			}
		}
		for _, l := range kept.Lines {
			assert.True(t, texts[l.Reading.Text], "the line %q comes back as it was typed", l.Reading.Text)
		}
	}
}

// firstSign is what a cell begins with; something no cell holds for an empty one.
func firstSign(cell string) string {
	for _, r := range cell {
		return string(r)
	}
	return "empty"
}

// bomb is an archive of a gigabyte of zeros; a liar says that each file holds ten bytes.
func bomb(t *testing.T, liar bool) string {
	t.Helper()
	zeros := make([]byte, 16<<20)
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestSpeed)
	require.NoError(t, err)
	_, err = w.Write(zeros)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	claim, sum := uint64(len(zeros)), crc32.ChecksumIEEE(zeros)
	if liar {
		claim = 10
	}
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	var listed []string
	for i := range 64 {
		name := fmt.Sprintf("households/%02d.json", i)
		f, err := z.CreateRaw(&zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: sum,
			CompressedSize64: uint64(packed.Len()), UncompressedSize64: claim})
		require.NoError(t, err)
		_, err = f.Write(packed.Bytes())
		require.NoError(t, err)
		listed = append(listed, fmt.Sprintf(`{"name":%q,"bytes":%d,"sha256":"%x"}`, name, claim, sha256.Sum256(zeros)))
	}
	f, err := z.Create("manifest.json")
	require.NoError(t, err)
	_, err = fmt.Fprintf(f, `{"format":"potwright archive","version":1,"holds":"households","files":[%s]}`, strings.Join(listed, ","))
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return b.String()
}

func TestABombThatIsSentTakesNoMemory(t *testing.T) {
	h := newHouse(t)
	base, _ := h.furnish()
	doors := map[string]func(file string) reply{
		"a page": func(file string) reply { return h.upload(base+"/recipes/file", "file", "soup.zip", file) },
		"recipes by the door": func(file string) reply {
			return h.ask(http.MethodPost, "/api/v1/households/1/recipes/file", "application/zip", file)
		},
		"an archive, the same": func(file string) reply { return h.ask(http.MethodPost, "/api/v1/archives", "application/zip", file) },
	}
	for _, liar := range []bool{false, true} {
		const most = 32 << 20 // allocated in all, this test's own sending among it
		file, says := bomb(t, liar), "holds too much"
		if liar {
			says = "is not as long as it says"
		}
		for door, send := range doors {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			r := send(file)
			runtime.ReadMemStats(&after)
			assert.Equal(t, http.StatusUnprocessableEntity, r.StatusCode, door)
			assert.Contains(t, r.body, says, door)
			assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(most), "%s, lying %v", door, liar)
		}
	}
	list, err := h.store.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Len(t, list, 1)
}

// A body that never comes to its end, an answer that nobody reads and a header without end
// each hold a connection for as long as the server's patience, and others are answered
// meanwhile.
func TestSlowClientsCannotHoldTheServer(t *testing.T) {
	const patience = time.Second
	over := make(chan string, 8)
	h := newHouse(t, func(r gin.IRouter) {
		r.GET("/endless", func(c *gin.Context) {
			for part := make([]byte, 1<<20); ; {
				if _, err := c.Writer.Write(part); err != nil {
					over <- "the answer"
					return
				}
			}
		})
		r.POST("/body", func(c *gin.Context) {
			_, err := io.Copy(io.Discard, c.Request.Body)
			over <- fmt.Sprintf("the body: %t", err != nil)
		})
	})
	ctx, stop := context.WithCancel(t.Context())
	ln, err := server.Listen(ctx, "127.0.0.1:0", false)
	require.NoError(t, err)
	served := make(chan error, 1)
	go func() { served <- server.ServeWithin(ctx, ln, h.handler, slog.New(slog.DiscardHandler), patience) }()
	say := func(words string) net.Conn {
		t.Helper()
		c, err := net.Dial("tcp", ln.Addr().String())
		require.NoError(t, err)
		t.Cleanup(func() { _ = c.Close() })
		_, err = io.WriteString(c, words)
		require.NoError(t, err)
		return c
	}
	const head = " HTTP/1.1\r\nHost: localhost\r\nSec-Fetch-Site: same-origin\r\n"
	start := time.Now()
	say("GET /endless" + head + "\r\n")
	say("POST /body" + head + "Content-Length: 1000000\r\n\r\nname=A")
	form := say("POST /" + head + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 1000000\r\n\r\nname=A")
	file := say("POST /api/v1/archives" + head + "Content-Type: application/zip\r\nContent-Length: 1000000\r\n\r\nPK")
	header := say("GET /" + head + "X-More: ")
	other := &house{t: t, url: "http://" + ln.Addr().String()}
	assert.Equal(t, http.StatusOK, other.get("/healthz").StatusCode, "others are answered meanwhile")
	assert.Empty(t, over, "while the slow ones still hold theirs")
	assert.ElementsMatch(t, []string{"the answer", "the body: true"}, []string{<-over, <-over})
	for name, c := range map[string]net.Conn{"a form": form, "a file": file, "a header": header} {
		require.NoError(t, c.SetReadDeadline(start.Add(10*patience)))
		said, err := io.ReadAll(c)
		assert.NoError(t, err, "%s: the server ends the connection", name)
		assert.NotContains(t, string(said), "500", name)
	}
	assert.Less(t, time.Since(start), 10*patience)
	stop()
	require.NoError(t, <-served)
	list, err := h.store.ListHouseholds(t.Context())
	require.NoError(t, err)
	assert.Empty(t, list, "half a form is not saved")
}
