-- The grades and arms a unit has, in its own order. What came in without having been in the list is not confirmed.
CREATE TABLE grade (
  code text PRIMARY KEY CHECK (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$'),
  name text NOT NULL CHECK (length(name) <= 400),
  officer boolean NOT NULL,
  place int NOT NULL CHECK (place >= 0),
  confirmed boolean NOT NULL
);
CREATE TABLE arm (
  code text PRIMARY KEY CHECK (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$'),
  name text NOT NULL CHECK (length(name) <= 400),
  place int NOT NULL CHECK (place >= 0),
  confirmed boolean NOT NULL
);

-- A record that is there begins with what is in use, for the office to look at.
WITH used AS (
  SELECT grade AS code FROM soldier_change WHERE grade IS NOT NULL
  UNION SELECT grade FROM soldier_period
  UNION SELECT jsonb_array_elements_text(required_grades) FROM certification_terms
    WHERE jsonb_typeof(required_grades) = 'array'
  UNION SELECT jsonb_array_elements_text(grades) FROM post WHERE jsonb_typeof(grades) = 'array'
)
INSERT INTO grade (code, name, officer, place, confirmed)
SELECT code, '', false, row_number() OVER (ORDER BY code) - 1, false FROM used
WHERE code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$';

WITH used AS (
  SELECT jsonb_array_elements_text(arms) AS code FROM soldier_change WHERE jsonb_typeof(arms) = 'array'
  UNION SELECT unnest(arms) FROM soldier_period
  UNION SELECT unnest(arms) FROM certification
  UNION SELECT jsonb_array_elements_text(definition -> 'arms') FROM standard_version
    WHERE jsonb_typeof(definition -> 'arms') = 'array'
  UNION SELECT arm FROM post WHERE arm IS NOT NULL
)
INSERT INTO arm (code, name, place, confirmed)
SELECT code, '', row_number() OVER (ORDER BY code) - 1, false FROM used
WHERE code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$';

-- What has to be said about a file before it can be stored, and what was said.
ALTER TABLE import_job ADD COLUMN questions jsonb NOT NULL DEFAULT '[]';
ALTER TABLE import_job ADD COLUMN answers jsonb NOT NULL DEFAULT '{}';
