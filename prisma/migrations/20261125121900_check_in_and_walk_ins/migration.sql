-- What was found when a candidate checked in; word to the office that two graders of one attempt differ.

ALTER TABLE "booking" ADD COLUMN "check_in" JSONB;

ALTER TABLE notice DROP CONSTRAINT notice_kind;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off',
  'sheet held', 'sheet counted', 'sheet rejected', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved',
  'sponsor ended', 'graders differ'));
