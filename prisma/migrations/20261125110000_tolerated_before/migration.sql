-- What was tolerated of a revision when the next one replaced it.

ALTER TABLE "sheet_revision" ADD COLUMN "tolerated_before" TEXT[];
