-- Tests that were made void, by who graded them.

CREATE INDEX sheet_void ON sheet (grader_id, day) WHERE ending = 'void';
