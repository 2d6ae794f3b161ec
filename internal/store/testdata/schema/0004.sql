UPDATE households SET measures = 'uk' WHERE id = 2;
