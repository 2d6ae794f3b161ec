-- A version's corrections of ingredient lines, each with the words of its line. fixes
-- holds them by the number of the line, as versions of before were saved; it stays as it
-- was. '' where they are not tied to words yet.
ALTER TABLE versions ADD COLUMN corrections TEXT NOT NULL DEFAULT '' CHECK (corrections = '' OR json_valid(corrections));

DROP TRIGGER versions_are_never_changed;

-- To tie its corrections is all that may happen to a version, and once.
CREATE TRIGGER versions_are_never_changed BEFORE UPDATE ON versions
WHEN OLD.corrections <> '' OR NEW.corrections = ''
    OR (OLD.id, OLD.recipe_id, OLD.parent_id, OLD.number, OLD.saved_at, OLD.note, OLD.body, OLD.fixes, OLD.changes, OLD.panel, OLD.plates)
        IS NOT (NEW.id, NEW.recipe_id, NEW.parent_id, NEW.number, NEW.saved_at, NEW.note, NEW.body, NEW.fixes, NEW.changes, NEW.panel, NEW.plates)
BEGIN
    SELECT RAISE(ABORT, 'a saved version is never changed');
END;
