package photo

import "context"

// Darkroom develops few pictures at a time, so that many sent at once don't take all the
// memory. The nil one develops as many as it is given.
type Darkroom struct{ places chan struct{} }

// NewDarkroom is one in which so many pictures are developed at a time.
func NewDarkroom(places int) *Darkroom { return &Darkroom{make(chan struct{}, places)} }

// Develop is the package's Develop when there is a place; the context's error where it
// ends before.
func (d *Darkroom) Develop(ctx context.Context, content []byte) (Picture, error) {
	if d != nil {
		select {
		case d.places <- struct{}{}:
			defer func() { <-d.places }()
		case <-ctx.Done():
			return Picture{}, ctx.Err()
		}
	}
	return Develop(content)
}
