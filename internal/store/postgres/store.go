package postgres

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	gormpostgres "gorm.io/driver/postgres"
	"gorm.io/gorm"
	"gorm.io/gorm/logger"

	"potwright/internal/store"
)

// Open opens the database at a URL (postgres://USER@HOST/DATABASE, with what else
// PostgreSQL's own programs take: a password, sslmode, search_path, several hosts) and
// brings its tables up to date; an empty one gets them. now gives the time versions
// are saved at. A database that holds something else, or that a later release wrote,
// is refused and left as it is. No error tells the password.
func Open(at string, now func() time.Time) (*store.Store, error) {
	config, err := parse(at)
	if err != nil {
		return nil, err
	}
	pool := connect(config)
	db, err := prepare(context.Background(), pool)
	if err != nil {
		_ = pool.Close() // the first error matters more
		return nil, fmt.Errorf("open %s: %w", named(config), inWords(err))
	}
	return store.New(db, engine{}, now), nil
}

// prepare waits for the server, brings the tables up to date and gives gorm the pool.
func prepare(ctx context.Context, pool *sql.DB) (*gorm.DB, error) {
	if err := greet(ctx, pool); err != nil {
		return nil, err
	}
	if err := migrate(ctx, pool); err != nil {
		return nil, err
	}
	return gorm.Open(gormpostgres.New(gormpostgres.Config{Conn: pool}), &gorm.Config{
		TranslateError:         true,
		SkipDefaultTransaction: true, // every method opens its own
		Logger:                 logger.Discard,
	})
}

// Look says what a database holds and changes nothing.
func Look(ctx context.Context, at string) (store.Condition, error) {
	config, err := parse(at)
	if err != nil {
		return store.Condition{}, err
	}
	pool := connect(config)
	defer pool.Close()
	c, err := look(ctx, pool)
	if err != nil {
		return store.Condition{}, fmt.Errorf("look into %s: %w", named(config), inWords(err))
	}
	return c, nil
}

func look(ctx context.Context, pool *sql.DB) (c store.Condition, err error) {
	if err := greet(ctx, pool); err != nil {
		return c, err
	}
	newest, err := NewestSchema()
	if err != nil {
		return c, err
	}
	if err := pool.QueryRowContext(ctx, "SHOW server_version").Scan(&c.Server); err != nil {
		return c, err
	}
	c.Schema, err = schemaVersion(ctx, pool)
	switch {
	case err != nil:
		return c, err
	case c.Schema > newest:
		return c, store.NewerSchema(c.Schema, newest)
	case c.Schema == 0:
		return c, errEmpty
	}
	return c, pool.QueryRowContext(ctx, store.CountQuery).Scan(&c.Households, &c.Recipes, &c.Versions)
}

// What a pool keeps open. A server takes 100 connections where nothing else is set.
const (
	mostConnections = 20
	idleTime        = 5 * time.Minute
)

func connect(config *pgx.ConnConfig) *sql.DB {
	pool := sql.OpenDB(connector{stdlib.GetConnector(*config)})
	pool.SetMaxOpenConns(mostConnections)
	pool.SetMaxIdleConns(mostConnections)
	pool.SetConnMaxIdleTime(idleTime)
	return pool
}

// patience is how long a server may take to answer at first: longer than one that is
// there ever does, and short for a person who waits.
const patience = 5 * time.Second

// greet waits for the server's first answer and refuses a database that can't keep
// every text.
func greet(ctx context.Context, pool *sql.DB) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	var encoding string
	var schema sql.NullString
	if err := pool.QueryRowContext(ctx, "SELECT pg_encoding_to_char(encoding), current_schema() FROM pg_database WHERE datname = current_database()").Scan(&encoding, &schema); err != nil {
		return err
	}
	if encoding != "UTF8" {
		return fmt.Errorf("its encoding is %s; expected UTF8 (createdb --encoding=UTF8 --template=template0)", encoding)
	}
	if !schema.Valid {
		return errNoSchema
	}
	return nil
}
