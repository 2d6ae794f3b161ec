CREATE TABLE choices (
    household_id INTEGER NOT NULL REFERENCES households (id),
    phrase       TEXT    NOT NULL CHECK (phrase <> ''),
    correction   TEXT    NOT NULL CHECK (json_valid(correction)),
    PRIMARY KEY (household_id, phrase)
) STRICT;

CREATE TABLE wishes (
    recipe_id INTEGER PRIMARY KEY REFERENCES recipes (id),
    wishes    TEXT    NOT NULL CHECK (json_valid(wishes))
) STRICT;
