INSERT INTO saves (recipe_id, number) SELECT 99, max(number) + 1 FROM saves;
