-- A day called off keeps who was to grade, and where each candidate went.

ALTER TABLE "slot" ADD COLUMN "called_off" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE slot DROP CONSTRAINT slot_one_at_a_time;
ALTER TABLE slot ADD CONSTRAINT slot_one_at_a_time
  EXCLUDE USING gist (grader_id WITH =, tstzrange(starts_at, ends_at) WITH &&) WHERE (NOT called_off);
UPDATE slot SET called_off = true FROM test_day d WHERE d.id = slot.test_day_id AND d.called_off_at IS NOT NULL;
-- Days called off before lost their graders; the bookings in their slots still name them.
UPDATE slot SET grader_id = b.grader_id FROM booking b, test_day d
  WHERE b.slot_id = slot.id AND d.id = slot.test_day_id AND b.state_reason = d.call_off_reason AND slot.called_off AND slot.grader_id IS NULL AND b.grader_id IS NOT NULL;

ALTER TABLE "booking" ADD COLUMN "moved_to_id" UUID;
CREATE INDEX "booking_moved_to_id_idx" ON "booking"("moved_to_id");
ALTER TABLE "booking" ADD CONSTRAINT "booking_moved_to_id_fkey" FOREIGN KEY ("moved_to_id") REFERENCES "booking"("id") ON DELETE SET NULL ON UPDATE CASCADE;
