-- What a member was told to watch: ids of the rulebook's cautions.
ALTER TABLE members ADD COLUMN cautions TEXT NOT NULL DEFAULT 'null' CHECK (json_valid(cautions));
