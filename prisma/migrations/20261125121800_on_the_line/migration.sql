-- What runs on a test day right now, who grades a test as the second, and word of it to every server process.

CREATE TABLE "running_test" (
    "id" UUID NOT NULL,
    "test_day_id" UUID NOT NULL,
    "candidate_id" UUID NOT NULL,
    "standard_id" UUID NOT NULL,
    "grader_id" UUID NOT NULL,
    "second_of" UUID,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "state" TEXT NOT NULL,
    "calls" INTEGER NOT NULL,
    "calls_done" INTEGER NOT NULL,
    "go" INTEGER NOT NULL,
    "no_go" INTEGER NOT NULL,
    "heard_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "running_test_pkey" PRIMARY KEY ("id")
);

CREATE INDEX "running_test_test_day_id_idx" ON "running_test"("test_day_id");
CREATE INDEX "running_test_candidate_id_idx" ON "running_test"("candidate_id");
CREATE INDEX "running_test_grader_id_idx" ON "running_test"("grader_id");
ALTER TABLE "running_test" ADD CONSTRAINT "running_test_test_day_id_fkey" FOREIGN KEY ("test_day_id") REFERENCES "test_day"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "running_test" ADD CONSTRAINT "running_test_candidate_id_fkey" FOREIGN KEY ("candidate_id") REFERENCES "soldier"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "running_test" ADD CONSTRAINT "running_test_standard_id_fkey" FOREIGN KEY ("standard_id") REFERENCES "standard"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE "running_test" ADD CONSTRAINT "running_test_grader_id_fkey" FOREIGN KEY ("grader_id") REFERENCES "soldier"("id") ON DELETE CASCADE ON UPDATE CASCADE;
ALTER TABLE running_test
  ADD CONSTRAINT running_test_state CHECK (state IN ('running', 'ceased')),
  ADD CONSTRAINT running_test_counts CHECK (0 <= calls_done AND calls_done <= calls AND 0 <= go AND 0 <= no_go);

ALTER TABLE "booking" ADD COLUMN "second_grader_id" UUID;
CREATE INDEX "booking_second_grader_id_idx" ON "booking"("second_grader_id");
ALTER TABLE "booking" ADD CONSTRAINT "booking_second_grader_id_fkey" FOREIGN KEY ("second_grader_id") REFERENCES "soldier"("id") ON DELETE SET NULL ON UPDATE CASCADE;
ALTER TABLE booking ADD CONSTRAINT booking_second_is_another
  CHECK (second_grader_id <> candidate_id AND second_grader_id IS DISTINCT FROM grader_id);

-- A test whose sheet has arrived runs no more.
CREATE FUNCTION end_running_test() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  DELETE FROM running_test WHERE id = NEW.id;
  RETURN NULL;
END $$;
CREATE TRIGGER sheet_ends_running_test AFTER INSERT ON sheet FOR EACH ROW EXECUTE FUNCTION end_running_test();

-- Tells whoever listens which test day changed; the message holds its id and nothing about people.
CREATE FUNCTION tell_test_day() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP <> 'INSERT' AND OLD.test_day_id IS NOT NULL THEN
    PERFORM pg_notify('test_day', OLD.test_day_id::text);
  END IF;
  IF TG_OP <> 'DELETE' AND NEW.test_day_id IS NOT NULL THEN
    PERFORM pg_notify('test_day', NEW.test_day_id::text);
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER running_test_told AFTER INSERT OR UPDATE OR DELETE ON running_test
  FOR EACH ROW EXECUTE FUNCTION tell_test_day();
CREATE TRIGGER booking_told AFTER INSERT OR UPDATE OR DELETE ON booking FOR EACH ROW EXECUTE FUNCTION tell_test_day();
CREATE TRIGGER sheet_told AFTER INSERT OR UPDATE OF test_day_id, state, revision ON sheet
  FOR EACH ROW EXECUTE FUNCTION tell_test_day();
