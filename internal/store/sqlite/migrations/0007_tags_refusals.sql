-- Words a household files its recipes under.
CREATE TABLE tags (
    recipe_id INTEGER NOT NULL REFERENCES recipes (id),
    tag       TEXT    NOT NULL CHECK (trim(tag) <> ''),
    PRIMARY KEY (recipe_id, tag)
) STRICT;

-- Swap rules that are never suggested to a household.
CREATE TABLE refusals (
    household_id INTEGER NOT NULL REFERENCES households (id),
    rule         TEXT    NOT NULL CHECK (rule <> ''),
    PRIMARY KEY (household_id, rule)
) STRICT;
