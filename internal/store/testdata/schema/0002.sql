INSERT INTO choices (household_id, phrase, correction) VALUES (1, 'broth', '{"food_id":"sr:6013"}'), (1, 'crème', '{"skip":true}');
INSERT INTO wishes (recipe_id, wishes) VALUES (7, '{"lock":[0],"max_changes":2}');
