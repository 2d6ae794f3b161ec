INSERT INTO products (id, household_id, name, name_key, label, saved_at)
VALUES (3, 1, 'plain tomatoes', 'plain tomatoes', '{"name":"plain tomatoes","panel":"us","serving":"1/2 cup (120 g)","figures":{"sodium_mg":"15"}}', '2024-05-01T00:00:00.000000000Z');
