-- A booking may name no grader yet: then there is no second one to be another.
ALTER TABLE booking DROP CONSTRAINT booking_second_is_another;
ALTER TABLE booking ADD CONSTRAINT booking_second_is_another CHECK (
  second_grader_id IS NULL OR second_grader_id <> candidate_id AND second_grader_id IS DISTINCT FROM grader_id);
