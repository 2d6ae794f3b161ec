-- What a kitchen has to cook with, and what a member does not like to eat.
ALTER TABLE households ADD COLUMN equipment TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(equipment));
ALTER TABLE members ADD COLUMN dislikes TEXT NOT NULL DEFAULT 'null' CHECK (json_valid(dislikes));
