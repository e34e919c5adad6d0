-- Personal data can be taken out of the record of changes, and the chain still holds: the hash of an entry is made over
-- salted digests of its personal parts (who: account name and address; what: before, after, reason). An emptied entry
-- has lost the parts and the salt, and keeps the digest.

ALTER TABLE "record_entry"
  ADD COLUMN "who_salt" BYTEA,
  ADD COLUMN "who_digest" BYTEA,
  ADD COLUMN "what_salt" BYTEA,
  ADD COLUMN "what_digest" BYTEA;

CREATE FUNCTION record_salt() RETURNS bytea LANGUAGE sql VOLATILE AS $$
  SELECT decode(replace(gen_random_uuid()::text || gen_random_uuid()::text, '-', ''), 'hex')
$$;
CREATE FUNCTION record_digest(salt bytea, parts jsonb) RETURNS bytea LANGUAGE sql STABLE AS $$
  SELECT sha256(salt || convert_to(parts::text, 'UTF8'))
$$;
CREATE FUNCTION record_who_digest(entry record_entry) RETURNS bytea LANGUAGE sql STABLE AS $$
  SELECT record_digest(entry.who_salt, jsonb_build_array(entry.account_name, entry.address))
$$;
CREATE FUNCTION record_what_digest(entry record_entry) RETURNS bytea LANGUAGE sql STABLE AS $$
  SELECT record_digest(entry.what_salt, jsonb_build_array(entry.before, entry.after, entry.reason))
$$;

-- The hash of an entry: SHA-256 over a JSON array in UTF-8. The kept digest stands in only where nothing is left to
-- make it of; an emptied entry with words in it has no hash that fits.
ALTER FUNCTION record_entry_hash RENAME TO former_record_entry_hash;
CREATE FUNCTION record_entry_hash(entry record_entry) RETURNS bytea LANGUAGE sql STABLE AS $$
  SELECT sha256(convert_to(jsonb_build_array(entry.seq,
    to_char(entry.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), entry.account_id,
    encode(CASE WHEN entry.who_salt IS NULL AND num_nonnulls(entry.account_name, entry.address) = 0
      THEN entry.who_digest ELSE record_who_digest(entry) END, 'hex'),
    entry.action, entry.subject_kind, entry.subject_id,
    encode(CASE WHEN entry.what_salt IS NULL AND num_nonnulls(entry.before, entry.after, entry.reason) = 0
      THEN entry.what_digest ELSE record_what_digest(entry) END, 'hex'),
    encode(entry.previous_hash, 'hex'))::text, 'UTF8'))
$$;

CREATE OR REPLACE FUNCTION chain_record_entry() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE head record_head;
BEGIN
  SELECT * INTO head FROM record_head WHERE id = 1 FOR UPDATE;
  NEW.seq := head.seq + 1;
  NEW.previous_hash := head.hash;
  NEW.who_salt := record_salt();
  NEW.what_salt := record_salt();
  NEW.who_digest := NULL;
  NEW.what_digest := NULL;
  NEW.hash := record_entry_hash(NEW);
  UPDATE record_head SET seq = NEW.seq, hash = NEW.hash WHERE id = 1;
  RETURN NEW;
END $$;

-- What is there already is chained anew, once. A place where the former chain was broken stays broken.
GRANT UPDATE ON record_entry TO CURRENT_USER;
ALTER TABLE record_entry DISABLE TRIGGER USER;
ALTER TABLE record_head DISABLE TRIGGER USER;
DO $$
DECLARE
  was record;
  entry record_entry;
  head record_head;
  former_hash bytea;
  last_hash bytea := sha256('Reviewstand record of changes');
BEGIN
  FOR was IN
    SELECT e.seq, e.hash, e.hash <> former_record_entry_hash(e) AS changed,
      e.previous_hash <> lag(e.hash, 1, last_hash) OVER (ORDER BY e.seq) AS unlinked
    FROM record_entry e ORDER BY e.seq
  LOOP
    SELECT * INTO entry FROM record_entry e WHERE e.seq = was.seq;
    entry.who_salt := record_salt();
    entry.what_salt := record_salt();
    IF NOT was.unlinked THEN entry.previous_hash := last_hash; END IF;
    IF NOT was.changed THEN entry.hash := record_entry_hash(entry); END IF;
    UPDATE record_entry e SET who_salt = entry.who_salt, what_salt = entry.what_salt,
      previous_hash = entry.previous_hash, hash = entry.hash WHERE e.seq = was.seq;
    former_hash := was.hash;
    last_hash := entry.hash;
  END LOOP;
  SELECT * INTO head FROM record_head WHERE id = 1;
  IF head.hash = former_hash THEN UPDATE record_head SET hash = last_hash WHERE id = 1; END IF;
  ALTER TABLE record_entry ENABLE TRIGGER USER;
  ALTER TABLE record_head ENABLE TRIGGER USER;
  IF former_hash IS NOT NULL THEN
    INSERT INTO record_entry (at, action, subject_kind, "after", reason)
    VALUES (now(), 'record.chained-anew', 'record',
      jsonb_build_object('formerEntries', head.seq, 'formerLastHash', encode(head.hash, 'hex')),
      'From now on personal data can be taken out of an entry without breaking the chain. All entries before this one '
      'were chained anew for it; a noted last hash of before is the former one given here.');
  END IF;
END $$;
DROP FUNCTION former_record_entry_hash;

-- Whether a removal of a soldier, later in the record, says that it emptied this part (who, what) of an entry.
CREATE FUNCTION record_emptied_by_removal(entry_seq bigint, part text) RETURNS boolean LANGUAGE sql STABLE AS $$
  SELECT EXISTS (SELECT FROM record_entry removal
    WHERE removal.action = 'soldier.removed' AND removal.seq > entry_seq AND jsonb_path_exists(
      removal.after -> 'emptied' -> part, 'strict $[*] ? (@[0] <= $seq && @[1] >= $seq)',
      jsonb_build_object('seq', entry_seq), true))
$$;
CREATE INDEX record_entry_removal ON record_entry (seq) WHERE action = 'soldier.removed';

-- Where the chain is broken: an entry whose fields do not give its hash, that does not follow on the one before, that was
-- emptied with no removal that says so, or before which entries are missing.
CREATE FUNCTION record_breaks()
RETURNS TABLE (seq bigint, changed boolean, unlinked boolean, unexplained boolean, missing bigint) LANGUAGE sql STABLE AS $$
  WITH checked AS MATERIALIZED (
    SELECT e.seq, e.hash IS DISTINCT FROM record_entry_hash(e) AS changed,
      e.previous_hash <> lag(e.hash, 1, sha256('Reviewstand record of changes')) OVER (ORDER BY e.seq) AS unlinked,
      CASE WHEN e.who_salt IS NULL THEN NOT record_emptied_by_removal(e.seq, 'who') ELSE false END
        OR CASE WHEN e.what_salt IS NULL THEN NOT record_emptied_by_removal(e.seq, 'what') ELSE false END AS unexplained,
      e.seq - lag(e.seq, 1, 0::bigint) OVER (ORDER BY e.seq) - 1 AS missing
    FROM record_entry e)
  SELECT * FROM checked c WHERE c.changed OR c.unlinked OR c.unexplained OR c.missing > 0 ORDER BY c.seq
$$;

-- An entry "soldier.removed" empties what it lists: pairs of first and last number under "who" and "what". What
-- a removal lists is itself never emptied. Nothing else changes an entry.
CREATE FUNCTION empty_listed_entries() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  UPDATE record_entry e SET who_digest = record_who_digest(e), who_salt = NULL, account_name = NULL, address = NULL
    FROM jsonb_array_elements(NEW.after -> 'emptied' -> 'who') listed
    WHERE e.seq BETWEEN (listed ->> 0)::bigint AND LEAST((listed ->> 1)::bigint, NEW.seq - 1) AND e.who_salt IS NOT NULL;
  UPDATE record_entry e SET what_digest = record_what_digest(e), what_salt = NULL, before = NULL, "after" = NULL, reason = NULL
    FROM jsonb_array_elements(NEW.after -> 'emptied' -> 'what') listed
    WHERE e.seq BETWEEN (listed ->> 0)::bigint AND LEAST((listed ->> 1)::bigint, NEW.seq - 1) AND e.what_salt IS NOT NULL
      AND e.action <> 'soldier.removed';
  RETURN NULL;
END $$;
CREATE TRIGGER record_entry_empties AFTER INSERT ON record_entry FOR EACH ROW
  WHEN (NEW.action = 'soldier.removed') EXECUTE FUNCTION empty_listed_entries();

CREATE FUNCTION refuse_change_of_entry() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND pg_trigger_depth() >= 2 AND NEW.hash = OLD.hash AND record_entry_hash(NEW) = record_entry_hash(OLD)
  THEN RETURN NEW; END IF;
  RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME USING ERRCODE = 'check_violation';
END $$;
DROP TRIGGER record_entry_kept ON record_entry;
CREATE TRIGGER record_entry_kept BEFORE UPDATE OR DELETE ON record_entry
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_entry();
REVOKE UPDATE, DELETE, TRUNCATE ON record_entry FROM CURRENT_USER;
GRANT UPDATE (account_name, address, who_salt, who_digest, before, "after", reason, what_salt, what_digest)
  ON record_entry TO CURRENT_USER;
