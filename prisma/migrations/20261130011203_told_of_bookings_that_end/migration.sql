-- Those concerned are told of a booking that ends by itself, or stands again.

ALTER TABLE notice DROP CONSTRAINT notice_kind;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off', 'not needed', 'needed again',
  'sheet entered', 'sheets taken in', 'sheet held', 'sheet counted', 'sheet rejected', 'amendment proposed',
  'amendment refused', 'sheet amended', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved', 'sponsor ended', 'graders differ',
  'sheet arrived late'));
