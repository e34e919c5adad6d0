-- A soldier's personal data is removed after leaving: name and number replaced, words about them taken out, figures kept.

CREATE TABLE "removal" (
  "soldier_id" UUID NOT NULL,
  "number" BIGSERIAL NOT NULL,
  "at" TIMESTAMPTZ(3) NOT NULL,
  "by_id" UUID,
  CONSTRAINT "removal_pkey" PRIMARY KEY ("soldier_id")
);
CREATE UNIQUE INDEX "removal_number_key" ON "removal"("number");
ALTER TABLE "removal" ADD CONSTRAINT "removal_soldier_id_fkey" FOREIGN KEY ("soldier_id")
  REFERENCES "soldier"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "removal" ADD CONSTRAINT "removal_by_id_fkey" FOREIGN KEY ("by_id")
  REFERENCES "account"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- What stands where words were; nothing stays nothing, since whether there was a word may matter to a rule.
CREATE FUNCTION words_removed(words text) RETURNS text LANGUAGE sql IMMUTABLE AS $$
  SELECT CASE WHEN btrim(words) <> '' THEN 'Removed' ELSE words END
$$;

-- A grade sheet, or what was scored of it, with its free words taken out: notes, why it is void, why a reading was overridden.
CREATE FUNCTION without_words(sheet jsonb) RETURNS jsonb LANGUAGE plpgsql IMMUTABLE AS $$
BEGIN
  RETURN CASE jsonb_typeof(sheet)
    WHEN 'object' THEN (SELECT COALESCE(jsonb_object_agg(key, CASE
        WHEN key IN ('note', 'notes', 'text', 'override') AND jsonb_typeof(value) = 'string' THEN to_jsonb(words_removed(value #>> '{}'))
        ELSE without_words(value) END), '{}') FROM jsonb_each(sheet))
    WHEN 'array' THEN (SELECT COALESCE(jsonb_agg(without_words(value) ORDER BY place), '[]')
      FROM jsonb_array_elements(sheet) WITH ORDINALITY AS each(value, place))
    ELSE sheet END;
END $$;

CREATE FUNCTION candidate_removed(of_sheet uuid) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT EXISTS (SELECT FROM sheet s JOIN removal r ON r.soldier_id = s.candidate_id WHERE s.id = of_sheet)
$$;

-- Revisions and decisions are never changed or deleted, but for this: those of a candidate who was removed become what
-- they are without words, and nothing else.
CREATE FUNCTION refuse_change_of_revision() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND NEW.body = without_words(OLD.body) AND NEW.score = without_words(OLD.score)
    AND NEW.reason IS NOT DISTINCT FROM words_removed(OLD.reason)
    AND to_jsonb(NEW) - '{body,score,reason}'::text[] = to_jsonb(OLD) - '{body,score,reason}'::text[]
    AND candidate_removed(OLD.sheet_id)
  THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME USING ERRCODE = 'check_violation';
END $$;
DROP TRIGGER sheet_revision_kept ON sheet_revision;
CREATE TRIGGER sheet_revision_kept BEFORE UPDATE OR DELETE ON sheet_revision
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_revision();

CREATE FUNCTION refuse_change_of_decision() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND NEW.reason = words_removed(OLD.reason)
    AND to_jsonb(NEW) - 'reason' = to_jsonb(OLD) - 'reason' AND candidate_removed(OLD.sheet_id)
  THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME USING ERRCODE = 'check_violation';
END $$;
DROP TRIGGER sheet_decision_kept ON sheet_decision;
CREATE TRIGGER sheet_decision_kept BEFORE UPDATE OR DELETE ON sheet_decision
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_decision();
