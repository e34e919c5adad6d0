-- The latest sheets of everybody are a walk down an index; without it every page of the list read and sorted all sheets.
CREATE INDEX "sheet_finished_at_id_idx" ON "sheet"("finished_at", "id");
