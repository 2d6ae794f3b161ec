INSERT INTO entries (id, household_id, member_id, day, meal, state, version_id, food_id, title, portion, grams, panel, counted)
VALUES (21, 1, 5, '2024-03-02', 'evening', 'eaten', 12, '', 'Crème de pois', 0.5, '{"low":100,"mid":120,"high":140}', '{"sodium_mg":{"low":1,"mid":2.5,"high":4}}', 'null'),
       (22, 1, 4, '2024-03-03', 'morning', 'planned', NULL, 'own:3', 'plain tomatoes', 0, '{"low":30,"mid":30,"high":30}', '{"sodium_mg":{"low":1,"mid":2,"high":3,"unknown":1}}', '{}');
INSERT INTO containers (id, household_id, version_id, title, portion, grams, frozen, best_by, taken_out)
VALUES (31, 1, 12, 'Crème de pois', 1, '{"low":200,"mid":240,"high":280}', '2024-03-02', '2024-05-01', ''), (32, 2, 13, 'Soup', 0.75, '{"low":0,"mid":0,"high":0}', '2024-03-02', '', '2024-03-05');
INSERT INTO made (id, household_id, version_id, day, rating, remark) VALUES (41, 1, 11, '2024-03-01', 2, 'too thin');
