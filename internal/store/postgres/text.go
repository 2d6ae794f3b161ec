package postgres

import (
	"context"
	"database/sql/driver"
	"strings"

	"github.com/jackc/pgx/v5/stdlib"
)

// connector opens connections that can write every text.
type connector struct{ driver.Connector }

// Connect opens one connection.
func (c connector) Connect(ctx context.Context) (driver.Conn, error) {
	inner, err := c.Connector.Connect(ctx)
	if err != nil {
		return nil, err
	}
	return connection{inner.(*stdlib.Conn)}, nil
}

// connection cleans the texts given to statements: PostgreSQL takes no zero byte and
// nothing that is not UTF-8, neither of which any keyboard writes.
type connection struct{ *stdlib.Conn }

// CheckNamedValue cleans a text and leaves everything else to the driver.
func (c connection) CheckNamedValue(v *driver.NamedValue) error {
	if text, ok := v.Value.(string); ok {
		v.Value = clean(text)
	}
	return c.Conn.CheckNamedValue(v)
}

// clean drops zero bytes and puts U+FFFD for what is not UTF-8.
func clean(text string) string {
	return strings.ToValidUTF8(strings.ReplaceAll(text, "\x00", ""), "\uFFFD")
}
