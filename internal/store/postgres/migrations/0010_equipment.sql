-- What a kitchen has to cook with, and what a member does not like to eat.
ALTER TABLE households ADD COLUMN equipment text COLLATE "C" NOT NULL DEFAULT '{}' CHECK (equipment::json IS NOT NULL);
ALTER TABLE members ADD COLUMN dislikes text COLLATE "C" NOT NULL DEFAULT 'null' CHECK (dislikes::json IS NOT NULL);
