-- Word of what commanders are asked for, and of what they said about an award.
ALTER TABLE notice ADD COLUMN certification TEXT, ADD COLUMN to_commanders BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE notice DROP CONSTRAINT notice_kind;
ALTER TABLE notice ADD CONSTRAINT notice_kind CHECK (kind IN ('booked', 'moved', 'cancelled', 'day called off', 'not needed', 'needed again',
  'sheet entered', 'sheets taken in', 'sheet held', 'sheet counted', 'sheet rejected', 'amendment proposed',
  'amendment refused', 'sheet amended', 'appealed', 'appeal upheld', 'appeal denied', 'due day moved', 'sponsor ended', 'graders differ',
  'sheet arrived late', 'soldier asked for', 'ask answered', 'award waiting', 'award approved', 'award refused',
  'decision taken back', 'award extended', 'extension taken back'));

ALTER TABLE push_message DROP CONSTRAINT push_message_kind;
ALTER TABLE push_message ADD CONSTRAINT push_message_kind CHECK (kind IN ('booking', 'call-off', 'result', 'award'));
