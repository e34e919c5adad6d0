-- How many must hold each certification, hold it, and have a retest open, past due and in need of a review, unit by unit with all
-- below it: kept as what changes by a day, so that a course over years adds up few rows however large the roster. Triggers
-- keep it, for it hangs on five tables and on nothing else.
CREATE TABLE readiness_tally (
  unit_id UUID NOT NULL,
  certification_id UUID NOT NULL,
  grain TEXT NOT NULL,
  start DATE NOT NULL,
  required INTEGER NOT NULL,
  certified INTEGER NOT NULL,
  open INTEGER NOT NULL,
  past_due INTEGER NOT NULL,
  needs_review INTEGER NOT NULL,
  CONSTRAINT readiness_tally_pkey PRIMARY KEY (unit_id, grain, start, certification_id),
  CONSTRAINT readiness_tally_grain CHECK (grain IN ('month', 'day')),
  CONSTRAINT readiness_tally_start CHECK (grain = 'day' OR extract(day FROM start) = 1)
);

-- What has not been added to it yet. Many transactions write here side by side, where all of them would queue for the few rows
-- of the units at the top.
CREATE TABLE readiness_change (
  id BIGSERIAL NOT NULL,
  unit_id UUID NOT NULL,
  certification_id UUID NOT NULL,
  day DATE NOT NULL,
  required INTEGER NOT NULL,
  certified INTEGER NOT NULL,
  open INTEGER NOT NULL,
  past_due INTEGER NOT NULL,
  needs_review INTEGER NOT NULL,
  CONSTRAINT readiness_change_pkey PRIMARY KEY (id)
);

-- From a day through a day (null: without end) somebody of the unit counts so.
CREATE TYPE readiness_span AS (
  unit_id UUID,
  certification_id UUID,
  from_day DATE,
  through_day DATE,
  required INTEGER,
  certified INTEGER,
  open INTEGER,
  past_due INTEGER,
  needs_review INTEGER
);

-- Where somebody has this period: what they must hold by the terms of the time, from when and how long ('infinity': without end).
CREATE FUNCTION required_in_period(of_unit UUID, of_grade TEXT, of_arms TEXT[], begins DATE, ends DATE)
RETURNS TABLE (certification_id UUID, from_day DATE, through_day DATE) LANGUAGE sql STABLE AS $$
  SELECT t.certification_id, GREATEST(begins, t.from_day), LEAST(COALESCE(ends, 'infinity'), t.through_day)
  FROM (SELECT x.certification_id, x.required_grades, x.required_units,
      CASE WHEN lag(x.effective_from) OVER in_order IS NULL THEN '-infinity' ELSE x.effective_from END AS from_day,
      COALESCE(lead(x.effective_from) OVER in_order - 1, 'infinity') AS through_day
    FROM certification_terms x WINDOW in_order AS (PARTITION BY x.certification_id ORDER BY x.effective_from)) t
  JOIN certification c ON c.id = t.certification_id
  WHERE begins <= t.through_day AND COALESCE(ends, 'infinity') >= t.from_day
    AND (cardinality(c.arms) = 0 OR c.arms && of_arms)
    AND (t.required_grades IS NULL OR t.required_grades ? of_grade)
    AND (t.required_units IS NULL OR EXISTS (SELECT FROM unit u WHERE u.id = of_unit
      AND u.lineage && ARRAY(SELECT jsonb_array_elements_text(t.required_units)::uuid)))
$$;

-- What one standing counts for, in the periods of its soldier.
CREATE FUNCTION spans_of_standing(of_soldier UUID, of_certification UUID, of_status TEXT, begins DATE, ends DATE)
RETURNS SETOF readiness_span LANGUAGE sql STABLE AS $$
  SELECT p.unit_id, of_certification, GREATEST(r.from_day, begins),
    NULLIF(LEAST(r.through_day, COALESCE(ends, 'infinity')), 'infinity'), 0, 1, 0, 0, 0
  FROM soldier_period p CROSS JOIN LATERAL required_in_period(p.unit_id, p.grade, p.arms, p.from_day, p.through_day) r
  WHERE of_status = 'certified' AND p.soldier_id = of_soldier AND r.certification_id = of_certification
    AND r.from_day <= COALESCE(ends, 'infinity') AND r.through_day >= begins
$$;

-- What an open retest counts for while somebody has this period; past due from the day after it was due.
CREATE FUNCTION spans_of_retest(of_unit UUID, period_begins DATE, period_ends DATE, of_certification UUID, begins DATE,
  ends DATE, due DATE, needs_review BOOLEAN)
RETURNS SETOF readiness_span LANGUAGE sql STABLE AS $$
  SELECT of_unit, of_certification, span.from_day, NULLIF(span.through_day, 'infinity'), 0, 0, span.open, span.past_due,
    span.needs_review
  FROM (
    SELECT GREATEST(begins, period_begins) AS from_day,
      LEAST(COALESCE(ends, 'infinity'), COALESCE(period_ends, 'infinity')) AS through_day, 1 AS open, 0 AS past_due,
      needs_review::int AS needs_review
    UNION ALL
    SELECT GREATEST(begins, period_begins, due + 1), LEAST(COALESCE(ends, 'infinity'), COALESCE(period_ends, 'infinity')),
      0, 1, 0) span
  WHERE span.from_day <= span.through_day
$$;

-- All that one period of a soldier counts for.
CREATE FUNCTION spans_of_period(of_soldier UUID, of_unit UUID, of_grade TEXT, of_arms TEXT[], begins DATE, ends DATE)
RETURNS SETOF readiness_span LANGUAGE sql STABLE AS $$
  SELECT of_unit, r.certification_id, r.from_day, NULLIF(r.through_day, 'infinity'), 1, 0, 0, 0, 0
  FROM required_in_period(of_unit, of_grade, of_arms, begins, ends) r
  UNION ALL
  SELECT of_unit, r.certification_id, GREATEST(r.from_day, s.from_day),
    NULLIF(LEAST(r.through_day, COALESCE(s.through_day, 'infinity')), 'infinity'), 0, 1, 0, 0, 0
  FROM required_in_period(of_unit, of_grade, of_arms, begins, ends) r
  JOIN standing s ON s.soldier_id = of_soldier AND s.certification_id = r.certification_id
  WHERE s.status = 'certified' AND s.from_day <= r.through_day AND COALESCE(s.through_day, 'infinity') >= r.from_day
  UNION ALL
  SELECT x.* FROM retest_span r JOIN certification c ON c.id = r.certification_id
  LEFT JOIN LATERAL (SELECT m.due FROM due_move m WHERE m.soldier_id = r.soldier_id
    AND m.certification_id = r.certification_id AND m.standard = r.standard AND m.on_day = r.on_day
    ORDER BY m.entry DESC LIMIT 1) moved ON true
  CROSS JOIN LATERAL spans_of_retest(of_unit, begins, ends, r.certification_id, r.from_day, r.through_day,
    COALESCE(moved.due, r.due), r.needs_review) x
  WHERE r.soldier_id = of_soldier AND (cardinality(c.arms) = 0 OR c.arms && of_arms)
$$;

-- Adds what is noted to the tallies. One transaction does it at a time; the others leave it to the next.
CREATE FUNCTION fold_readiness() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  IF NOT pg_try_advisory_xact_lock(7300003) THEN RETURN; END IF;
  WITH noted AS (DELETE FROM readiness_change RETURNING *)
  INSERT INTO readiness_tally AS t
  SELECT above.id, n.certification_id, each.grain, each.start, sum(n.required), sum(n.certified), sum(n.open),
    sum(n.past_due), sum(n.needs_review)
  FROM noted n JOIN unit u ON u.id = n.unit_id CROSS JOIN LATERAL unnest(u.lineage) AS above(id)
  CROSS JOIN LATERAL (VALUES ('day', n.day), ('month', date_trunc('month', n.day)::date)) AS each(grain, start)
  GROUP BY 1, 2, 3, 4
  HAVING (sum(n.required), sum(n.certified), sum(n.open), sum(n.past_due), sum(n.needs_review)) <> (0, 0, 0, 0, 0)
  ON CONFLICT (unit_id, grain, start, certification_id) DO UPDATE SET required = t.required + excluded.required,
    certified = t.certified + excluded.certified, open = t.open + excluded.open,
    past_due = t.past_due + excluded.past_due, needs_review = t.needs_review + excluded.needs_review;
END $$;

-- Notes spans that count from now on, and such (negative) that do not any more. What adds up to nothing is not noted.
CREATE FUNCTION note_readiness(spans readiness_span[]) RETURNS void LANGUAGE plpgsql AS $$
DECLARE last_id BIGINT; noted BIGINT;
BEGIN
  IF cardinality(spans) = 0 THEN RETURN; END IF;
  WITH changed AS (
    INSERT INTO readiness_change (unit_id, certification_id, day, required, certified, open, past_due, needs_review)
    SELECT s.unit_id, s.certification_id, edge.day, sum(edge.sign * s.required), sum(edge.sign * s.certified),
      sum(edge.sign * s.open), sum(edge.sign * s.past_due), sum(edge.sign * s.needs_review)
    FROM unnest(spans) s CROSS JOIN LATERAL (VALUES (s.from_day, 1), (s.through_day + 1, -1)) AS edge(day, sign)
    WHERE edge.day IS NOT NULL GROUP BY 1, 2, 3
    HAVING (sum(edge.sign * s.required), sum(edge.sign * s.certified), sum(edge.sign * s.open),
      sum(edge.sign * s.past_due), sum(edge.sign * s.needs_review)) <> (0, 0, 0, 0, 0)
    RETURNING id)
  SELECT max(id), count(*) INTO last_id, noted FROM changed;
  -- Some hundred rows are read as fast as none.
  IF last_id % 256 < noted THEN PERFORM fold_readiness(); END IF;
END $$;

CREATE FUNCTION negative(s readiness_span) RETURNS readiness_span LANGUAGE sql IMMUTABLE AS $$
  SELECT ROW(s.unit_id, s.certification_id, s.from_day, s.through_day, -s.required, -s.certified, -s.open, -s.past_due,
    -s.needs_review)::readiness_span
$$;

CREATE FUNCTION keep_readiness_of_standing() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE spans readiness_span[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    spans := ARRAY(SELECT negative(x) FROM went s
      CROSS JOIN LATERAL spans_of_standing(s.soldier_id, s.certification_id, s.status, s.from_day, s.through_day) x
      WHERE s.status = 'certified');
  END IF;
  IF TG_OP <> 'DELETE' THEN
    spans := spans || ARRAY(SELECT x FROM came s
      CROSS JOIN LATERAL spans_of_standing(s.soldier_id, s.certification_id, s.status, s.from_day, s.through_day) x
      WHERE s.status = 'certified');
  END IF;
  PERFORM note_readiness(spans);
  RETURN NULL;
END $$;

-- The same in all periods of its soldier, by the due day it was moved to last.
CREATE FUNCTION spans_of_retest_in_periods(of_soldier UUID, of_certification UUID, of_standard TEXT, of_day DATE,
  begins DATE, ends DATE, due DATE, needs_review BOOLEAN)
RETURNS SETOF readiness_span LANGUAGE sql STABLE AS $$
  SELECT x.* FROM certification c
  JOIN soldier_period p ON p.soldier_id = of_soldier AND (cardinality(c.arms) = 0 OR c.arms && p.arms)
  LEFT JOIN LATERAL (SELECT m.due FROM due_move m WHERE m.soldier_id = of_soldier
    AND m.certification_id = of_certification AND m.standard = of_standard AND m.on_day = of_day
    ORDER BY m.entry DESC LIMIT 1) moved ON true
  CROSS JOIN LATERAL spans_of_retest(p.unit_id, p.from_day, p.through_day, of_certification, begins, ends,
    COALESCE(moved.due, spans_of_retest_in_periods.due), needs_review) x
  WHERE c.id = of_certification
$$;

CREATE FUNCTION keep_readiness_of_retest() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE spans readiness_span[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    spans := ARRAY(SELECT negative(x) FROM went r CROSS JOIN LATERAL spans_of_retest_in_periods(
      r.soldier_id, r.certification_id, r.standard, r.on_day, r.from_day, r.through_day, r.due, r.needs_review) x);
  END IF;
  IF TG_OP <> 'DELETE' THEN
    spans := spans || ARRAY(SELECT x FROM came r CROSS JOIN LATERAL spans_of_retest_in_periods(
      r.soldier_id, r.certification_id, r.standard, r.on_day, r.from_day, r.through_day, r.due, r.needs_review) x);
  END IF;
  PERFORM note_readiness(spans);
  RETURN NULL;
END $$;

CREATE FUNCTION keep_readiness_of_period() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE spans readiness_span[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    spans := ARRAY(SELECT negative(x) FROM went p
      CROSS JOIN LATERAL spans_of_period(p.soldier_id, p.unit_id, p.grade, p.arms, p.from_day, p.through_day) x);
  END IF;
  IF TG_OP <> 'DELETE' THEN
    spans := spans || ARRAY(SELECT x FROM came p
      CROSS JOIN LATERAL spans_of_period(p.soldier_id, p.unit_id, p.grade, p.arms, p.from_day, p.through_day) x);
  END IF;
  PERFORM note_readiness(spans);
  RETURN NULL;
END $$;

-- A due day that is moved, or is not any more: of the NO-GOs it is about, what was due when before goes, what is now comes.
CREATE FUNCTION keep_readiness_of_due_move() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE went_rows due_move[] := '{}'; came_rows due_move[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN went_rows := ARRAY(SELECT ROW(g.*)::due_move FROM went g); END IF;
  IF TG_OP <> 'DELETE' THEN came_rows := ARRAY(SELECT ROW(g.*)::due_move FROM came g); END IF;
  PERFORM note_readiness(ARRAY(
    SELECT CASE WHEN each.was THEN negative(x) ELSE x END
    FROM (SELECT DISTINCT soldier_id, certification_id, standard, on_day FROM unnest(went_rows || came_rows)) about
    JOIN retest_span r ON r.soldier_id = about.soldier_id AND r.certification_id = about.certification_id
      AND r.standard = about.standard AND r.on_day = about.on_day
    JOIN certification c ON c.id = r.certification_id
    JOIN soldier_period p ON p.soldier_id = r.soldier_id AND (cardinality(c.arms) = 0 OR c.arms && p.arms)
    CROSS JOIN (VALUES (true), (false)) AS each(was)
    LEFT JOIN LATERAL (
      SELECT m.due FROM (
        SELECT d.* FROM due_move d WHERE NOT (each.was AND d.id = ANY(SELECT g.id FROM unnest(came_rows) g))
        UNION ALL SELECT g.* FROM unnest(went_rows) g WHERE each.was) m
      WHERE m.soldier_id = r.soldier_id AND m.certification_id = r.certification_id AND m.standard = r.standard
        AND m.on_day = r.on_day ORDER BY m.entry DESC LIMIT 1) moved ON true
    CROSS JOIN LATERAL spans_of_retest(p.unit_id, p.from_day, p.through_day, r.certification_id, r.from_day,
      r.through_day, COALESCE(moved.due, r.due), r.needs_review) x));
  RETURN NULL;
END $$;

-- Counts everybody anew in some certifications. What is noted meanwhile by others does not hang on these: whoever changes terms
-- has the catalogue to themselves.
CREATE FUNCTION count_readiness(certifications UUID[]) RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(7300003);
  DELETE FROM readiness_change WHERE certification_id = ANY(certifications);
  DELETE FROM readiness_tally WHERE certification_id = ANY(certifications);
  INSERT INTO readiness_change (unit_id, certification_id, day, required, certified, open, past_due, needs_review)
  SELECT s.unit_id, s.certification_id, edge.day, sum(edge.sign * s.required), sum(edge.sign * s.certified),
    sum(edge.sign * s.open), sum(edge.sign * s.past_due), sum(edge.sign * s.needs_review)
  FROM soldier_period p
  CROSS JOIN LATERAL spans_of_period(p.soldier_id, p.unit_id, p.grade, p.arms, p.from_day, p.through_day) s
  CROSS JOIN LATERAL (VALUES (s.from_day, 1), (s.through_day + 1, -1)) AS edge(day, sign)
  WHERE edge.day IS NOT NULL AND s.certification_id = ANY(certifications) GROUP BY 1, 2, 3;
  PERFORM fold_readiness();
END $$;

CREATE FUNCTION keep_readiness_of_terms() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE changed UUID[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN changed := ARRAY(SELECT DISTINCT certification_id FROM went); END IF;
  IF TG_OP <> 'DELETE' THEN changed := changed || ARRAY(SELECT DISTINCT certification_id FROM came); END IF;
  IF cardinality(changed) > 0 THEN PERFORM count_readiness(changed); END IF;
  RETURN NULL;
END $$;

CREATE TRIGGER standing_readiness_come AFTER INSERT ON standing REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_standing();
CREATE TRIGGER standing_readiness_change AFTER UPDATE ON standing REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_standing();
CREATE TRIGGER standing_readiness_go AFTER DELETE ON standing REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_standing();

CREATE TRIGGER retest_span_readiness_come AFTER INSERT ON retest_span REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_retest();
CREATE TRIGGER retest_span_readiness_change AFTER UPDATE ON retest_span REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_retest();
CREATE TRIGGER retest_span_readiness_go AFTER DELETE ON retest_span REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_retest();

CREATE TRIGGER soldier_period_readiness_come AFTER INSERT ON soldier_period REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_period();
CREATE TRIGGER soldier_period_readiness_change AFTER UPDATE ON soldier_period REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_period();
CREATE TRIGGER soldier_period_readiness_go AFTER DELETE ON soldier_period REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_period();

CREATE TRIGGER due_move_readiness_come AFTER INSERT ON due_move REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_due_move();
CREATE TRIGGER due_move_readiness_change AFTER UPDATE ON due_move REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_due_move();
CREATE TRIGGER due_move_readiness_go AFTER DELETE ON due_move REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_due_move();

CREATE TRIGGER certification_terms_readiness_come AFTER INSERT ON certification_terms REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_terms();
CREATE TRIGGER certification_terms_readiness_change AFTER UPDATE ON certification_terms
  REFERENCING OLD TABLE AS went NEW TABLE AS came FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_terms();
CREATE TRIGGER certification_terms_readiness_go AFTER DELETE ON certification_terms REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_readiness_of_terms();

-- What is noted about a unit is added to the units above while it still says which they are.
CREATE FUNCTION fold_readiness_of_unit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(7300003);
  PERFORM fold_readiness();
  DELETE FROM readiness_tally WHERE unit_id = OLD.id;
  RETURN OLD;
END $$;
CREATE TRIGGER unit_readiness_go BEFORE DELETE ON unit FOR EACH ROW EXECUTE FUNCTION fold_readiness_of_unit();

SELECT count_readiness(ARRAY(SELECT id FROM certification));
