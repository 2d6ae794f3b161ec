INSERT INTO photos (id, household_id, recipe_id, digest, caption, main, on_card, added_at, width, height, small_width, small_height, large, small)
VALUES (61, 1, 7, 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 'vor dem Rühren 🍲', FALSE, TRUE, '2024-03-02T11:00:00.000000000Z', 16, 12, 8, 6, X'FFD800616263FF', X'FFD8'),
       (62, 1, 7, 'cb8379ac2098aa165029e3938a51da0bcecfc008fd6795f401178647f96c5b34', '', TRUE, FALSE, '2024-03-02T11:00:01.000000000Z', 1600, 1200, 400, 300, X'FFD801', X'FFD802');
