CREATE TABLE choices (
    household_id bigint NOT NULL REFERENCES households (id),
    phrase       text COLLATE "C" NOT NULL CHECK (phrase <> ''),
    correction   text COLLATE "C" NOT NULL CHECK (correction::json IS NOT NULL),
    PRIMARY KEY (household_id, phrase)
);

CREATE TABLE wishes (
    recipe_id bigint PRIMARY KEY REFERENCES recipes (id),
    wishes    text COLLATE "C" NOT NULL CHECK (wishes::json IS NOT NULL)
);
