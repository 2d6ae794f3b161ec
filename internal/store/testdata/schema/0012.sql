UPDATE versions SET corrections = '[{"words":"½ cup peas","food_id":"sr:11304"}]' WHERE id = 12;
UPDATE versions SET corrections = 'null' WHERE id <> 12;
