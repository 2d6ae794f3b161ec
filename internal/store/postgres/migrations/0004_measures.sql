-- Whose cups and spoons a household cooks with.
ALTER TABLE households ADD COLUMN measures text COLLATE "C" NOT NULL DEFAULT 'us' CHECK (measures IN ('us', 'uk', 'au', 'metric'));
