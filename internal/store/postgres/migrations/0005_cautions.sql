-- What a member was told to watch: ids of the rulebook's cautions.
ALTER TABLE members ADD COLUMN cautions text COLLATE "C" NOT NULL DEFAULT 'null' CHECK (cautions::json IS NOT NULL);
