package archive_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"image"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"potwright/internal/archive"
	"potwright/internal/household"
	"potwright/internal/kitchen"
	"potwright/internal/photo"
	"potwright/internal/recipe"
)

// album makes each of its pictures when it is asked for it, and notes the most memory
// that was in use then, bytes.
type album struct {
	sent  photo.Picture
	names map[string]int
	most  uint64
}

func (a *album) Picture(_ context.Context, digest string) (photo.Picture, error) {
	a.most = max(a.most, inUse())
	p := a.sent
	p.Large.JPEG = numbered(a.sent, a.names[digest])
	return p, nil
}

// numbered is the picture with another last byte of its last scan, which no reader of
// sizes looks at: a file of its own.
func numbered(p photo.Picture, n int) []byte {
	content := bytes.Clone(p.Large.JPEG)
	content[len(content)-3] = byte(n) << 1
	return content
}

func inUse() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// noise is a picture whose JPEG is about 1 MB.
func noise(t *testing.T) photo.Picture {
	t.Helper()
	r := rand.New(rand.NewPCG(1, 2))
	large, small := image.NewGray(image.Rect(0, 0, 1600, 1000)), image.NewGray(image.Rect(0, 0, 400, 250))
	for i := range large.Pix {
		large.Pix[i] = byte(r.Uint32())
	}
	var files [2]bytes.Buffer
	require.NoError(t, jpeg.Encode(&files[0], large, &jpeg.Options{Quality: 78}))
	require.NoError(t, jpeg.Encode(&files[1], small, nil))
	p, err := photo.Kept(files[0].Bytes(), files[1].Bytes())
	require.NoError(t, err)
	return p
}

// Forty photos of 1 MB go out and come in, and never more than a few are in memory.
func TestPhotosPassOneByOne(t *testing.T) {
	const photos, bound = 40, 8 << 20
	a := &album{sent: noise(t), names: map[string]int{}}
	h := kitchen.Holdings{Household: household.Household{Name: "H"}, Album: a}
	for i := range photos {
		sum := sha256.Sum256(numbered(a.sent, i))
		digest := hex.EncodeToString(sum[:])
		a.names[digest] = i
		one := photo.Photo{Digest: digest, Picture: a.sent.Light(), AddedAt: written}
		h.Recipes = append(h.Recipes, kitchen.HeldRecipe{Title: fmt.Sprint(i), Versions: []recipe.Version{{ID: 1, Number: 1}}, Photos: []photo.Photo{one}})
	}
	require.Len(t, a.names, photos)
	f, err := os.Create(filepath.Join(t.TempDir(), "h.zip"))
	require.NoError(t, err)
	defer f.Close()
	before := inUse()
	require.NoError(t, archive.Write(t.Context(), f, []kitchen.Holdings{h}, written))
	assert.Less(t, a.most, before+bound, "while it is written")
	size, err := f.Seek(0, 1)
	require.NoError(t, err)
	require.Greater(t, size, int64(photos*900_000))

	got, err := archive.Read(f, size, archive.WholeLimits())
	require.NoError(t, err)
	assert.Less(t, inUse(), before+bound, "when it is read")
	back := got.Households[0]
	for i, r := range back.Recipes {
		assert.Equal(t, h.Recipes[i].Photos[0].Digest, r.Photos[0].Digest)
		p, err := back.Picture(t.Context(), r.Photos[0])
		require.NoError(t, err)
		assert.Equal(t, r.Photos[0].Digest, p.Digest())
		assert.Equal(t, a.sent.Small.JPEG, p.Small.JPEG)
	}
}

// What is removed while an archive is written is not in it, and what is left reads.
func TestAPhotoRemovedMeanwhileIsLeftOut(t *testing.T) {
	kept, gone := photoOf(t, 5, "kept"), photoOf(t, 6, "gone")
	h := kitchen.Holdings{Household: household.Household{Name: "H"}, Album: onlyOne{kept},
		Recipes: []kitchen.HeldRecipe{{Title: "Soup", Versions: []recipe.Version{{ID: 1, Number: 1}}, Photos: []photo.Photo{gone, kept}}}}
	photos := read(t, pack(t, h)).Households[0].Recipes[0].Photos
	require.Len(t, photos, 1)
	assert.Equal(t, "kept", photos[0].Caption)
}

type onlyOne struct{ photo.Photo }

func (o onlyOne) Picture(_ context.Context, digest string) (photo.Picture, error) {
	if digest != o.Digest {
		return photo.Picture{}, kitchen.ErrNotFound
	}
	return o.Photo.Picture, nil
}
