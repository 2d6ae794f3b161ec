-- What was saved last: a number that grows with every save, by the recipe it belongs to,
-- so that what rests on one recipe outlives the saves of others, whichever program they
-- are of. 0 is what several recipes rest on, -1 what none does, such as when somebody was
-- last seen. Triggers note it, so that no statement is missed.
CREATE TABLE saves (
    recipe_id bigint PRIMARY KEY,
    number    bigint NOT NULL
);

CREATE INDEX saves_in_order ON saves (number);

INSERT INTO saves (recipe_id, number) VALUES (0, 1);

-- note_save notes a save of the recipe that stands in the column named, or of the number
-- given. It waits for the lock of writers, which the program has already: without it two
-- might take the same number, and the later of them be missed.
CREATE FUNCTION note_save() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
    saved bigint;
BEGIN
    PERFORM pg_advisory_xact_lock(1349481591, hashtext(TG_TABLE_SCHEMA));
    CASE TG_ARGV[0]
        WHEN 'id' THEN saved := CASE TG_OP WHEN 'DELETE' THEN OLD.id ELSE NEW.id END;
        WHEN 'recipe_id' THEN saved := CASE TG_OP WHEN 'DELETE' THEN OLD.recipe_id ELSE NEW.recipe_id END;
        ELSE saved := TG_ARGV[0];
    END CASE;
    EXECUTE format('INSERT INTO %1$I.saves (recipe_id, number) SELECT $1, coalesce(max(number), 0) + 1 FROM %1$I.saves
        ON CONFLICT (recipe_id) DO UPDATE SET number = excluded.number', TG_TABLE_SCHEMA) USING saved;
    RETURN NULL;
END $$;

-- Of one recipe.
CREATE TRIGGER versions_saved AFTER INSERT ON versions FOR EACH ROW EXECUTE FUNCTION note_save('recipe_id');
CREATE TRIGGER recipes_saved AFTER INSERT OR UPDATE OR DELETE ON recipes FOR EACH ROW EXECUTE FUNCTION note_save('id');
CREATE TRIGGER wishes_saved AFTER INSERT OR UPDATE OR DELETE ON wishes FOR EACH ROW EXECUTE FUNCTION note_save('recipe_id');
CREATE TRIGGER tags_saved AFTER INSERT OR UPDATE OR DELETE ON tags FOR EACH ROW EXECUTE FUNCTION note_save('recipe_id');
CREATE TRIGGER photos_saved AFTER INSERT OR UPDATE OR DELETE ON photos FOR EACH ROW EXECUTE FUNCTION note_save('recipe_id');

-- Of none.
CREATE TRIGGER sessions_seen AFTER UPDATE ON sessions FOR EACH STATEMENT EXECUTE FUNCTION note_save('-1');
CREATE TRIGGER tokens_seen AFTER UPDATE ON tokens FOR EACH STATEMENT EXECUTE FUNCTION note_save('-1');

-- Of any.
CREATE TRIGGER households_saved AFTER INSERT OR UPDATE OR DELETE ON households FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER members_saved AFTER INSERT OR UPDATE OR DELETE ON members FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER choices_saved AFTER INSERT OR UPDATE OR DELETE ON choices FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER products_saved AFTER INSERT OR UPDATE OR DELETE ON products FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER entries_saved AFTER INSERT OR UPDATE OR DELETE ON entries FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER containers_saved AFTER INSERT OR UPDATE OR DELETE ON containers FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER made_saved AFTER INSERT OR UPDATE OR DELETE ON made FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER refusals_saved AFTER INSERT OR UPDATE OR DELETE ON refusals FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER accounts_saved AFTER INSERT OR UPDATE OR DELETE ON accounts FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER links_saved AFTER INSERT OR UPDATE OR DELETE ON links FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER sessions_saved AFTER INSERT OR DELETE ON sessions FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER tokens_saved AFTER INSERT OR DELETE ON tokens FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER recipes_emptied AFTER TRUNCATE ON recipes FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER wishes_emptied AFTER TRUNCATE ON wishes FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER tags_emptied AFTER TRUNCATE ON tags FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER photos_emptied AFTER TRUNCATE ON photos FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER households_emptied AFTER TRUNCATE ON households FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER members_emptied AFTER TRUNCATE ON members FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER choices_emptied AFTER TRUNCATE ON choices FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER products_emptied AFTER TRUNCATE ON products FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER entries_emptied AFTER TRUNCATE ON entries FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER containers_emptied AFTER TRUNCATE ON containers FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER made_emptied AFTER TRUNCATE ON made FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER refusals_emptied AFTER TRUNCATE ON refusals FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER accounts_emptied AFTER TRUNCATE ON accounts FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER links_emptied AFTER TRUNCATE ON links FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER sessions_emptied AFTER TRUNCATE ON sessions FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
CREATE TRIGGER tokens_emptied AFTER TRUNCATE ON tokens FOR EACH STATEMENT EXECUTE FUNCTION note_save('0');
