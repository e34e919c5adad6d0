-- A unit that is closed has nobody in it from that day on; what was before stays as it was.
ALTER TABLE unit ADD COLUMN closed_from DATE;

-- The services say so in words; this holds whatever two requests do at the same moment. The code has a transaction begin
-- anew, which then finds the unit closed, or somebody in it.
CREATE FUNCTION keep_out_of_closed_unit() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE closed DATE;
BEGIN
  SELECT closed_from INTO closed FROM unit WHERE id = NEW.unit_id FOR KEY SHARE;
  IF closed IS NOT NULL AND (NEW.through_day IS NULL OR NEW.through_day >= closed) THEN
    RAISE EXCEPTION 'the unit is closed from % on', closed USING ERRCODE = 'serialization_failure';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER soldier_period_unit_open BEFORE INSERT OR UPDATE ON soldier_period
  FOR EACH ROW EXECUTE FUNCTION keep_out_of_closed_unit();

CREATE FUNCTION close_empty_unit() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF EXISTS (SELECT FROM soldier_period WHERE unit_id = NEW.id
    AND (through_day IS NULL OR through_day >= NEW.closed_from)) THEN
    RAISE EXCEPTION 'somebody is in the unit from % on', NEW.closed_from USING ERRCODE = 'serialization_failure';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER unit_closed_empty BEFORE UPDATE OF closed_from ON unit
  FOR EACH ROW WHEN (NEW.closed_from IS NOT NULL) EXECUTE FUNCTION close_empty_unit();
