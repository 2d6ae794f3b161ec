-- A label is kept as it was typed; it is read afresh with every use.
CREATE TABLE products (
    id           INTEGER PRIMARY KEY AUTOINCREMENT, -- never given twice: recipes refer to it
    household_id INTEGER NOT NULL REFERENCES households (id),
    name         TEXT    NOT NULL CHECK (trim(name) <> ''),
    name_key     TEXT    NOT NULL,
    label        TEXT    NOT NULL CHECK (json_valid(label)),
    saved_at     TEXT    NOT NULL,
    UNIQUE (household_id, name_key)
) STRICT;
