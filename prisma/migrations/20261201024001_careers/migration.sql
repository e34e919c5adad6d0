-- How many counted tests of a standard a soldier took by a day, without a look at the sheets.
CREATE INDEX sheet_careers ON sheet (candidate_id, standard_id, day) INCLUDE (arm) WHERE tallied_kind IS NOT NULL;
