INSERT INTO tags (recipe_id, tag) VALUES (7, 'für Gäste'), (7, 'soup'), (8, 'soup');
INSERT INTO refusals (household_id, rule) VALUES (1, 'salt-less'), (2, 'salt-less');
