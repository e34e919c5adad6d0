-- With nobody to grade named yet there is no second grader either: that must not be refused.
ALTER TABLE booking DROP CONSTRAINT booking_second_is_another;
ALTER TABLE booking ADD CONSTRAINT booking_second_is_another
  CHECK (second_grader_id <> candidate_id AND second_grader_id <> grader_id);
