-- Tables are STRICT: a column holds its declared type or the write fails.
-- Times are UTC text, RFC 3339 with nine decimals. *_key columns hold the
-- case-folded name, because SQLite's own NOCASE folds ASCII letters only.

CREATE TABLE households (
    id            INTEGER PRIMARY KEY AUTOINCREMENT,
    name          TEXT    NOT NULL CHECK (trim(name) <> ''),
    name_key      TEXT    NOT NULL UNIQUE,
    cook_spare    TEXT    NOT NULL DEFAULT '[]' CHECK (json_valid(cook_spare)),
    lift_limit_kg REAL    NOT NULL DEFAULT 0 CHECK (lift_limit_kg >= 0),
    meal_share    REAL    NOT NULL DEFAULT 0 CHECK (meal_share BETWEEN 0 AND 1)
) STRICT;

CREATE TABLE members (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    position     INTEGER NOT NULL CHECK (position >= 0),
    name         TEXT    NOT NULL CHECK (trim(name) <> ''),
    name_key     TEXT    NOT NULL,
    age          INTEGER NOT NULL DEFAULT 0 CHECK (age >= 0),
    portion      REAL    NOT NULL DEFAULT 0 CHECK (portion >= 0),
    portion_min  REAL    NOT NULL DEFAULT 0 CHECK (portion_min >= 0),
    portion_max  REAL    NOT NULL DEFAULT 0 CHECK (portion_max >= 0),
    limits       TEXT    NOT NULL DEFAULT '[]' CHECK (json_valid(limits)),
    plan         TEXT    NOT NULL DEFAULT 'null' CHECK (json_valid(plan)),
    avoid        TEXT    NOT NULL DEFAULT '[]' CHECK (json_valid(avoid)),
    texture      TEXT    NOT NULL DEFAULT 'null' CHECK (json_valid(texture)),
    UNIQUE (household_id, name_key)
) STRICT;

CREATE TABLE recipes (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    title        TEXT    NOT NULL,
    created_at   TEXT    NOT NULL
) STRICT;

CREATE INDEX recipes_of_household ON recipes (household_id);

CREATE TABLE versions (
    id        INTEGER PRIMARY KEY AUTOINCREMENT,
    recipe_id INTEGER NOT NULL REFERENCES recipes (id),
    parent_id INTEGER,
    number    INTEGER NOT NULL CHECK (number >= 1),
    saved_at  TEXT    NOT NULL,
    note      TEXT    NOT NULL DEFAULT '',
    body      TEXT    NOT NULL,
    fixes     TEXT    NOT NULL DEFAULT '{}' CHECK (json_valid(fixes)),
    changes   TEXT    NOT NULL DEFAULT '[]' CHECK (json_valid(changes)),
    panel     TEXT    NOT NULL DEFAULT '',
    plates    TEXT    NOT NULL DEFAULT '',
    UNIQUE (recipe_id, number),
    UNIQUE (id, recipe_id),
    -- The first version has no parent, every other has one of its own recipe.
    CHECK ((number = 1) = (parent_id IS NULL)),
    FOREIGN KEY (parent_id, recipe_id) REFERENCES versions (id, recipe_id)
) STRICT;

CREATE TRIGGER versions_are_never_changed BEFORE UPDATE ON versions
BEGIN
    SELECT RAISE(ABORT, 'a saved version is never changed');
END;

CREATE TRIGGER versions_are_never_deleted BEFORE DELETE ON versions
BEGIN
    SELECT RAISE(ABORT, 'a saved version is never deleted');
END;
