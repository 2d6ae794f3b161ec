-- Who may come in. What a session, token or link is known by is kept as its SHA-256.
CREATE TABLE accounts (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    name         TEXT    NOT NULL,
    name_key     TEXT    NOT NULL UNIQUE,
    role         TEXT    NOT NULL CHECK (role IN ('keeper', 'cook', 'eater')),
    hash         TEXT    NOT NULL CHECK (hash LIKE '$argon2id$%'),
    created_at   TEXT    NOT NULL
) STRICT;

CREATE INDEX accounts_of_household ON accounts (household_id);

CREATE TABLE sessions (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    account_id INTEGER NOT NULL REFERENCES accounts (id),
    digest     TEXT    NOT NULL UNIQUE CHECK (length(digest) = 64),
    device     TEXT    NOT NULL,
    started_at TEXT    NOT NULL,
    seen_at    TEXT    NOT NULL
) STRICT;

CREATE INDEX sessions_of_account ON sessions (account_id);

CREATE TABLE tokens (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    name         TEXT    NOT NULL,
    role         TEXT    NOT NULL CHECK (role IN ('keeper', 'cook', 'eater')),
    digest       TEXT    NOT NULL UNIQUE CHECK (length(digest) = 64),
    created_at   TEXT    NOT NULL,
    used_at      TEXT    NOT NULL DEFAULT '' -- '' where it was never used
) STRICT;

CREATE INDEX tokens_of_household ON tokens (household_id);

CREATE TABLE links (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    recipe_id    INTEGER NOT NULL REFERENCES recipes (id),
    version_id   INTEGER NOT NULL REFERENCES versions (id),
    digest       TEXT    NOT NULL UNIQUE CHECK (length(digest) = 64),
    created_at   TEXT    NOT NULL
) STRICT;

CREATE INDEX links_of_recipe ON links (recipe_id);
