-- What members eat and plan to eat, what lies in the freezer, and how dishes turned
-- out. Days are those of the household's own calendar, without a time of day.

CREATE TABLE entries (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    -- Saving a household puts its members in anew under their ids: so this is looked at
    -- when the transaction ends.
    member_id    INTEGER NOT NULL REFERENCES members (id) DEFERRABLE INITIALLY DEFERRED,
    day          TEXT    NOT NULL CHECK (day GLOB '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
    meal         TEXT    NOT NULL CHECK (meal IN ('morning', 'midday', 'evening', 'between')),
    state        TEXT    NOT NULL CHECK (state IN ('planned', 'eaten')),
    version_id   INTEGER REFERENCES versions (id), -- NULL for a food
    food_id      TEXT    NOT NULL DEFAULT '',      -- '' for a dish
    title        TEXT    NOT NULL,
    portion      REAL    NOT NULL CHECK (portion >= 0),
    grams        TEXT    NOT NULL CHECK (json_valid(grams)),
    panel        TEXT    NOT NULL CHECK (json_valid(panel)),
    counted      TEXT    NOT NULL DEFAULT 'null' CHECK (json_valid(counted)),
    CHECK ((version_id IS NULL) = (food_id <> ''))
) STRICT;

CREATE INDEX entries_of_day ON entries (household_id, day);
CREATE INDEX entries_of_member ON entries (member_id);

CREATE TABLE containers (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    version_id   INTEGER NOT NULL REFERENCES versions (id),
    title        TEXT    NOT NULL,
    portion      REAL    NOT NULL CHECK (portion > 0),
    grams        TEXT    NOT NULL CHECK (json_valid(grams)),
    frozen       TEXT    NOT NULL,
    best_by      TEXT    NOT NULL DEFAULT '', -- '' where the advice gives none
    taken_out    TEXT    NOT NULL DEFAULT ''  -- '' while it is there
) STRICT;

CREATE INDEX containers_of_household ON containers (household_id, taken_out);

CREATE TABLE made (
    id           INTEGER PRIMARY KEY AUTOINCREMENT,
    household_id INTEGER NOT NULL REFERENCES households (id),
    version_id   INTEGER NOT NULL REFERENCES versions (id),
    day          TEXT    NOT NULL,
    rating       INTEGER NOT NULL CHECK (rating BETWEEN 0 AND 5),
    remark       TEXT    NOT NULL DEFAULT ''
) STRICT;

CREATE INDEX made_of_version ON made (version_id);
