-- Words a household files its recipes under.
CREATE TABLE tags (
    recipe_id bigint NOT NULL REFERENCES recipes (id),
    tag       text COLLATE "C" NOT NULL CHECK (trim(tag) <> ''),
    PRIMARY KEY (recipe_id, tag)
);

-- Swap rules that are never suggested to a household.
CREATE TABLE refusals (
    household_id bigint NOT NULL REFERENCES households (id),
    rule         text COLLATE "C" NOT NULL CHECK (rule <> ''),
    PRIMARY KEY (household_id, rule)
);
