-- What was saved last: a number that grows with every save, by the recipe it belongs to,
-- so that what rests on one recipe outlives the saves of others, whichever program they
-- are of. 0 is what several recipes rest on, -1 what none does, such as when somebody was
-- last seen. Triggers note it, so that no statement is missed.
CREATE TABLE saves (
    recipe_id INTEGER PRIMARY KEY,
    number    INTEGER NOT NULL
) STRICT;

CREATE INDEX saves_in_order ON saves (number);

INSERT INTO saves (recipe_id, number) VALUES (0, 1);

-- To insert into this is to note a save.
CREATE VIEW saving AS SELECT recipe_id FROM saves;

CREATE TRIGGER saving_is_noted INSTEAD OF INSERT ON saving
BEGIN
    INSERT INTO saves (recipe_id, number) SELECT NEW.recipe_id, coalesce(max(number), 0) + 1 FROM saves WHERE true
        ON CONFLICT (recipe_id) DO UPDATE SET number = excluded.number;
END;

-- Of one recipe.
CREATE TRIGGER versions_inserted AFTER INSERT ON versions BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER recipes_inserted AFTER INSERT ON recipes BEGIN INSERT INTO saving VALUES (NEW.id); END;
CREATE TRIGGER recipes_updated AFTER UPDATE ON recipes BEGIN INSERT INTO saving VALUES (NEW.id); END;
CREATE TRIGGER recipes_deleted AFTER DELETE ON recipes BEGIN INSERT INTO saving VALUES (OLD.id); END;
CREATE TRIGGER wishes_inserted AFTER INSERT ON wishes BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER wishes_updated AFTER UPDATE ON wishes BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER wishes_deleted AFTER DELETE ON wishes BEGIN INSERT INTO saving VALUES (OLD.recipe_id); END;
CREATE TRIGGER tags_inserted AFTER INSERT ON tags BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER tags_updated AFTER UPDATE ON tags BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER tags_deleted AFTER DELETE ON tags BEGIN INSERT INTO saving VALUES (OLD.recipe_id); END;
CREATE TRIGGER photos_inserted AFTER INSERT ON photos BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER photos_updated AFTER UPDATE ON photos BEGIN INSERT INTO saving VALUES (NEW.recipe_id); END;
CREATE TRIGGER photos_deleted AFTER DELETE ON photos BEGIN INSERT INTO saving VALUES (OLD.recipe_id); END;

-- Of none.
CREATE TRIGGER sessions_updated AFTER UPDATE ON sessions BEGIN INSERT INTO saving VALUES (-1); END;
CREATE TRIGGER tokens_updated AFTER UPDATE ON tokens BEGIN INSERT INTO saving VALUES (-1); END;

-- Of any.
CREATE TRIGGER households_inserted AFTER INSERT ON households BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER households_updated AFTER UPDATE ON households BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER households_deleted AFTER DELETE ON households BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER members_inserted AFTER INSERT ON members BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER members_updated AFTER UPDATE ON members BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER members_deleted AFTER DELETE ON members BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER choices_inserted AFTER INSERT ON choices BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER choices_updated AFTER UPDATE ON choices BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER choices_deleted AFTER DELETE ON choices BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER products_inserted AFTER INSERT ON products BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER products_updated AFTER UPDATE ON products BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER products_deleted AFTER DELETE ON products BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER entries_inserted AFTER INSERT ON entries BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER entries_updated AFTER UPDATE ON entries BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER entries_deleted AFTER DELETE ON entries BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER containers_inserted AFTER INSERT ON containers BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER containers_updated AFTER UPDATE ON containers BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER containers_deleted AFTER DELETE ON containers BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER made_inserted AFTER INSERT ON made BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER made_updated AFTER UPDATE ON made BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER made_deleted AFTER DELETE ON made BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER refusals_inserted AFTER INSERT ON refusals BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER refusals_updated AFTER UPDATE ON refusals BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER refusals_deleted AFTER DELETE ON refusals BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER accounts_inserted AFTER INSERT ON accounts BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER accounts_updated AFTER UPDATE ON accounts BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER accounts_deleted AFTER DELETE ON accounts BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER links_inserted AFTER INSERT ON links BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER links_updated AFTER UPDATE ON links BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER links_deleted AFTER DELETE ON links BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER sessions_inserted AFTER INSERT ON sessions BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER sessions_deleted AFTER DELETE ON sessions BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER tokens_inserted AFTER INSERT ON tokens BEGIN INSERT INTO saving VALUES (0); END;
CREATE TRIGGER tokens_deleted AFTER DELETE ON tokens BEGIN INSERT INTO saving VALUES (0); END;
