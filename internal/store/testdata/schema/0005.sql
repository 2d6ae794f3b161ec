UPDATE members SET cautions = '["grapefruit"]' WHERE id = 5;
