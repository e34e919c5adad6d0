-- Sheets that run at the same time as another of their candidate: few, among them those of one test sent twice.
CREATE INDEX sheet_overlapping ON sheet (day, id) WHERE is_overlapping AND state <> 'rejected';
