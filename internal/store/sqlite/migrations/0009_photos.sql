-- Pictures of dishes, upright and without metadata, in two sizes. A recipe has a picture
-- once, and one that stands for the dish.
CREATE TABLE photos (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    recipe_id    INTEGER NOT NULL REFERENCES recipes (id),
    digest       TEXT    NOT NULL CHECK (length(digest) = 64), -- SHA-256 of large
    caption      TEXT    NOT NULL DEFAULT '',
    main         INTEGER NOT NULL CHECK (main IN (0, 1)),
    on_card      INTEGER NOT NULL CHECK (on_card IN (0, 1)),
    added_at     TEXT    NOT NULL,
    width        INTEGER NOT NULL CHECK (width > 0),
    height       INTEGER NOT NULL CHECK (height > 0),
    small_width  INTEGER NOT NULL CHECK (small_width > 0),
    small_height INTEGER NOT NULL CHECK (small_height > 0),
    large        BLOB    NOT NULL, -- JPEG
    small        BLOB    NOT NULL, -- JPEG
    UNIQUE (recipe_id, digest)
) STRICT;

CREATE INDEX photos_of_digest ON photos (household_id, digest);
CREATE UNIQUE INDEX photos_main ON photos (recipe_id) WHERE main;
