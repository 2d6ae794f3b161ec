UPDATE households SET equipment = '{"pots":[{"name":"blue pot","litres":4.7}],"no_scales":true,"no_oven":false}' WHERE id = 1;
UPDATE members SET dislikes = '["food:liver"]' WHERE id = 5;
UPDATE households SET equipment = '{"pots":null,"no_scales":false,"no_oven":false}' WHERE id = 2;
