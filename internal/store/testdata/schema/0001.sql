INSERT INTO households (id, name, name_key, cook_spare, lift_limit_kg, meal_share)
VALUES (1, 'Harbour Street', 'harbour street', '["grip"]', 3, 0.4), (2, 'Weiße Gasse', 'weisse gasse', 'null', 0, 0);
INSERT INTO members (id, household_id, position, name, name_key, age, portion, portion_min, portion_max, limits, plan, avoid, texture)
VALUES (4, 1, 1, 'Ben', 'ben', 9, 0.5, 0.25, 1, '[]', 'null', '["milk"]', 'null'),
       (5, 1, 0, 'Zoë', 'zoë', 71, 0, 0, 0, '[{"nutrient":"sodium_mg","at_most":600,"per":"meal","set_by":"clinician"}]',
        '{"unit":"choice","weights":{"carbohydrate_g":0.0667},"round_to":0.5,"floor":0,"allowance":4,"per":"meal"}', 'null', '{"level":6,"avoid":["husks"]}');
INSERT INTO recipes (id, household_id, title, created_at)
VALUES (7, 1, 'Crème de pois', '2024-02-29T23:59:59.000000001Z'), (8, 2, 'Soup', '2024-03-01T08:00:00.000000000Z');
INSERT INTO versions (id, recipe_id, parent_id, number, saved_at, note, body, fixes, changes, panel, plates)
VALUES (11, 7, NULL, 1, '2024-02-29T23:59:59.000000001Z', '', 'Crème de pois
1 cup peas', '{}', '[]', '{}', ''),
       (12, 7, 11, 2, '2024-03-02T10:00:00.500000000Z', 'less — für Zoë 🍲', 'Crème de pois
½ cup peas', '{"0":{"food_id":"sr:11304"}}',
        '[{"line":0,"from":"1 cup peas","to":["½ cup peas"],"rule":"","why":null,"for":null}]', '{}', '[]'),
       (13, 8, NULL, 1, '2024-03-01T08:00:00.000000000Z', '', 'Soup
1 cup water', 'null', 'null', '', '');
