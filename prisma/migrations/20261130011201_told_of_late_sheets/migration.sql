-- The office is told of a sheet that came in after a later one of the same soldier.

ALTER TABLE notice DROP CONSTRAINT notice_kind;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off',
  'sheet entered', 'sheets taken in', 'sheet held', 'sheet counted', 'sheet rejected', 'amendment proposed',
  'amendment refused', 'sheet amended', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved', 'sponsor ended', 'graders differ',
  'sheet arrived late'));
