-- Ceremonies and test days are found by how their words begin, as soldiers are; without it a search read every test day.
CREATE INDEX ceremony_words ON ceremony USING gin (to_tsvector('simple', folded(title || ' ' || place)));
CREATE INDEX test_day_words ON test_day USING gin (to_tsvector('simple', folded(place)));
