-- Soldiers are found by parts of names and numbers by their trigrams. The extension comes with PostgreSQL, and who owns a database
-- may create it; where that is not so, the roster is read from end to end, and the answer is the same.
DO $$
BEGIN
  CREATE EXTENSION IF NOT EXISTS pg_trgm;
  CREATE INDEX soldier_name_parts ON soldier
    USING gin ((roster_number || ' ' || family_name || ' ' || given_name) gin_trgm_ops);
EXCEPTION WHEN insufficient_privilege OR feature_not_supported OR undefined_file OR undefined_object THEN
  RAISE NOTICE 'Parts of names have no index: %', SQLERRM;
END $$;
