-- How many sheets are in no figure, by why, unit by unit with all below it: kept by year, month and day, so that saying what an
-- answer leaves out adds up few rows however long the record. Triggers keep it, for it hangs on sheets and on where their
-- candidates were, and on nothing else. The zero id gathers sheets of days on which the candidate was in no unit.
CREATE TABLE not_counted_tally (
  unit_id UUID NOT NULL,
  standard_version_id UUID NOT NULL,
  grain TEXT NOT NULL,
  start DATE NOT NULL,
  arm TEXT NOT NULL,
  why TEXT NOT NULL,
  sheets INTEGER NOT NULL,
  CONSTRAINT not_counted_tally_pkey PRIMARY KEY (unit_id, standard_version_id, grain, start, arm, why),
  CONSTRAINT not_counted_tally_grain CHECK (grain IN ('year', 'month', 'day')),
  CONSTRAINT not_counted_tally_why CHECK (why IN ('held', 'rejected', 'void', 'second', 'practice'))
);

-- What has not been added to it yet. Many transactions write here side by side, where all of them would queue for the few rows
-- of the units at the top.
CREATE TABLE not_counted_change (
  id BIGSERIAL NOT NULL,
  unit_id UUID NOT NULL,
  standard_version_id UUID NOT NULL,
  day DATE NOT NULL,
  arm TEXT NOT NULL,
  why TEXT NOT NULL,
  sheets INTEGER NOT NULL,
  CONSTRAINT not_counted_change_pkey PRIMARY KEY (id)
);

-- Why a sheet is in no figure, by the first reason; null where it is in one, or is one of those that nobody asks after.
CREATE FUNCTION why_not_counted(s sheet) RETURNS TEXT LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE WHEN s.tallied_kind IS NOT NULL THEN NULL WHEN s.purpose = 'practice' THEN 'practice'
    WHEN s.state <> 'counted' THEN s.state WHEN s.outcome = 'VOID' THEN 'void'
    WHEN s.second_of IS NOT NULL THEN 'second' END
$$;

-- Where a sheet is gathered.
CREATE FUNCTION unit_of_sheet(candidate UUID, on_day DATE) RETURNS UUID LANGUAGE sql STABLE AS $$
  SELECT COALESCE((SELECT p.unit_id FROM soldier_period p WHERE p.soldier_id = candidate
    AND daterange(p.from_day, p.through_day, '[]') @> on_day), '00000000-0000-0000-0000-000000000000')
$$;

-- Adds what is noted to the tallies. One transaction does it at a time; the others leave it to the next.
CREATE FUNCTION fold_not_counted() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  IF NOT pg_try_advisory_xact_lock(7300004) THEN RETURN; END IF;
  WITH noted AS (DELETE FROM not_counted_change RETURNING *)
  INSERT INTO not_counted_tally AS t (unit_id, standard_version_id, grain, start, arm, why, sheets)
  SELECT above.id, n.standard_version_id, each.grain, each.start, n.arm, n.why, sum(n.sheets)
  FROM noted n LEFT JOIN unit u ON u.id = n.unit_id
  CROSS JOIN LATERAL unnest(COALESCE(u.lineage, ARRAY[n.unit_id])) AS above(id)
  CROSS JOIN LATERAL (VALUES ('day', n.day), ('month', date_trunc('month', n.day)::date),
    ('year', date_trunc('year', n.day)::date)) AS each(grain, start)
  GROUP BY 1, 2, 3, 4, 5, 6 HAVING sum(n.sheets) <> 0
  ON CONFLICT (unit_id, standard_version_id, grain, start, arm, why) DO UPDATE SET sheets = t.sheets + excluded.sheets;
END $$;

-- What is in no figure from now on, and (negative) what was and is not any more.
CREATE TYPE not_counted AS (
  unit_id UUID,
  standard_version_id UUID,
  day DATE,
  arm TEXT,
  why TEXT,
  sheets INTEGER
);

-- What adds up to nothing is not noted.
CREATE FUNCTION note_not_counted(notes not_counted[]) RETURNS void LANGUAGE plpgsql AS $$
DECLARE last_id BIGINT; noted BIGINT;
BEGIN
  IF cardinality(notes) = 0 THEN RETURN; END IF;
  WITH changed AS (
    INSERT INTO not_counted_change (unit_id, standard_version_id, day, arm, why, sheets)
    SELECT n.unit_id, n.standard_version_id, n.day, n.arm, n.why, sum(n.sheets) FROM unnest(notes) n
    GROUP BY 1, 2, 3, 4, 5 HAVING sum(n.sheets) <> 0
    RETURNING id)
  SELECT max(id), count(*) INTO last_id, noted FROM changed;
  -- Some hundred rows are read as fast as none.
  IF last_id % 256 < noted THEN PERFORM fold_not_counted(); END IF;
END $$;

CREATE FUNCTION keep_not_counted_of_sheet() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE notes not_counted[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    notes := ARRAY(SELECT ROW(unit_of_sheet(s.candidate_id, s.day), s.standard_version_id, s.day, COALESCE(s.arm, ''),
      s.why, -1)::not_counted FROM (SELECT g.*, why_not_counted(g) AS why FROM went g) s WHERE s.why IS NOT NULL);
  END IF;
  IF TG_OP <> 'DELETE' THEN
    notes := notes || ARRAY(SELECT ROW(unit_of_sheet(s.candidate_id, s.day), s.standard_version_id, s.day,
      COALESCE(s.arm, ''), s.why, 1)::not_counted
      FROM (SELECT c.*, why_not_counted(c) AS why FROM came c) s WHERE s.why IS NOT NULL);
  END IF;
  PERFORM note_not_counted(notes);
  RETURN NULL;
END $$;

-- Where a candidate was changes: of the days of these periods, sheets go from the unit to none, or come from none to the unit.
CREATE FUNCTION keep_not_counted_of_period() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE notes not_counted[] := '{}';
BEGIN
  IF TG_OP <> 'INSERT' THEN
    notes := ARRAY(SELECT ROW(each.unit_id, s.standard_version_id, s.day, COALESCE(s.arm, ''), s.why, each.sheets)::not_counted
      FROM went p JOIN LATERAL (SELECT x.*, why_not_counted(x) AS why FROM sheet x WHERE x.candidate_id = p.soldier_id
        AND x.tallied_kind IS NULL AND x.day >= p.from_day AND (p.through_day IS NULL OR x.day <= p.through_day)) s
        ON s.why IS NOT NULL
      CROSS JOIN LATERAL (VALUES (p.unit_id, -1), ('00000000-0000-0000-0000-000000000000', 1)) AS each(unit_id, sheets));
  END IF;
  IF TG_OP <> 'DELETE' THEN
    notes := notes || ARRAY(SELECT ROW(each.unit_id, s.standard_version_id, s.day, COALESCE(s.arm, ''), s.why,
        each.sheets)::not_counted
      FROM came p JOIN LATERAL (SELECT x.*, why_not_counted(x) AS why FROM sheet x WHERE x.candidate_id = p.soldier_id
        AND x.tallied_kind IS NULL AND x.day >= p.from_day AND (p.through_day IS NULL OR x.day <= p.through_day)) s
        ON s.why IS NOT NULL
      CROSS JOIN LATERAL (VALUES (p.unit_id, 1), ('00000000-0000-0000-0000-000000000000', -1)) AS each(unit_id, sheets));
  END IF;
  PERFORM note_not_counted(notes);
  RETURN NULL;
END $$;

CREATE TRIGGER sheet_not_counted_come AFTER INSERT ON sheet REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_sheet();
CREATE TRIGGER sheet_not_counted_change AFTER UPDATE ON sheet REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_sheet();
CREATE TRIGGER sheet_not_counted_go AFTER DELETE ON sheet REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_sheet();

CREATE TRIGGER soldier_period_not_counted_come AFTER INSERT ON soldier_period REFERENCING NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_period();
CREATE TRIGGER soldier_period_not_counted_change AFTER UPDATE ON soldier_period REFERENCING OLD TABLE AS went NEW TABLE AS came
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_period();
CREATE TRIGGER soldier_period_not_counted_go AFTER DELETE ON soldier_period REFERENCING OLD TABLE AS went
  FOR EACH STATEMENT EXECUTE FUNCTION keep_not_counted_of_period();

-- What is noted about a unit is added to the units above while it still says which they are.
CREATE FUNCTION fold_not_counted_of_unit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(7300004);
  PERFORM fold_not_counted();
  DELETE FROM not_counted_tally WHERE unit_id = OLD.id;
  RETURN OLD;
END $$;
CREATE TRIGGER unit_not_counted_go BEFORE DELETE ON unit FOR EACH ROW EXECUTE FUNCTION fold_not_counted_of_unit();

-- Counts all sheets anew; nobody may store one meanwhile.
CREATE FUNCTION count_not_counted() RETURNS void LANGUAGE plpgsql AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(7300004);
  DELETE FROM not_counted_change;
  DELETE FROM not_counted_tally;
  INSERT INTO not_counted_change (unit_id, standard_version_id, day, arm, why, sheets)
  SELECT unit_of_sheet(s.candidate_id, s.day), s.standard_version_id, s.day, COALESCE(s.arm, ''), s.why, count(*)
  FROM (SELECT x.*, why_not_counted(x) AS why FROM sheet x WHERE x.tallied_kind IS NULL) s
  WHERE s.why IS NOT NULL GROUP BY 1, 2, 3, 4, 5;
  PERFORM fold_not_counted();
END $$;

SELECT count_not_counted();

-- It held what is looked up in the tallies now.
DROP INDEX sheet_not_counted;
