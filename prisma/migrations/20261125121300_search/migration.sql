-- Search folds words: lower case, accents off, what is neither letter nor digit to a space. Letters that Unicode does not
-- take apart are named. All of it is immutable, so that it may stand in an index; no extension is needed.
CREATE FUNCTION folded(words text) RETURNS text
  LANGUAGE sql IMMUTABLE STRICT PARALLEL SAFE
  AS $$
    SELECT regexp_replace(regexp_replace(
      replace(replace(replace(replace(translate(normalize(lower(words), NFKD), 'øłđðħı', 'olddhi'),
        'ß', 'ss'), 'æ', 'ae'), 'œ', 'oe'), 'þ', 'th'),
      U&'[\0300-\036f]', '', 'g'), '[^[:alnum:]]+', ' ', 'g')
  $$;

-- Every word of a soldier's names and number, found by how it begins.
CREATE INDEX soldier_words ON soldier
  USING gin (to_tsvector('simple', folded(family_name || ' ' || given_name || ' ' || roster_number)));
