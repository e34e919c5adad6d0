-- An append-only record of changes, chained by hash.

CREATE TABLE "record_entry" (
    "seq" BIGINT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "account_id" UUID,
    "account_name" TEXT,
    "address" TEXT,
    "action" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" TEXT,
    "before" JSONB,
    "after" JSONB,
    "reason" TEXT,
    "previous_hash" BYTEA NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "record_entry_pkey" PRIMARY KEY ("seq")
);
CREATE INDEX "record_entry_subject_id_seq_idx" ON "record_entry"("subject_id", "seq");
CREATE INDEX "record_entry_account_id_seq_idx" ON "record_entry"("account_id", "seq");

CREATE TABLE "record_head" (
    "id" SMALLINT NOT NULL,
    "seq" BIGINT NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "record_head_pkey" PRIMARY KEY ("id")
);
ALTER TABLE record_head ADD CONSTRAINT record_head_is_one_row CHECK (id = 1);
INSERT INTO record_head (id, seq, hash) VALUES (1, 0, sha256('Reviewstand record of changes'));

-- The hash of an entry: SHA-256 over all its fields but the hash itself, as a JSON array in UTF-8.
CREATE FUNCTION record_entry_hash(entry record_entry) RETURNS bytea LANGUAGE sql STABLE AS $$
  SELECT sha256(convert_to(jsonb_build_array(entry.seq,
    to_char(entry.at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"'), entry.account_id, entry.account_name,
    entry.address, entry.action, entry.subject_kind, entry.subject_id, entry.before, entry.after, entry.reason,
    encode(entry.previous_hash, 'hex'))::text, 'UTF8'))
$$;

-- Entries are numbered and chained one after the other; the head stays locked until the transaction ends.
CREATE FUNCTION chain_record_entry() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE head record_head;
BEGIN
  SELECT * INTO head FROM record_head WHERE id = 1 FOR UPDATE;
  NEW.seq := head.seq + 1;
  NEW.previous_hash := head.hash;
  NEW.hash := record_entry_hash(NEW);
  UPDATE record_head SET seq = NEW.seq, hash = NEW.hash WHERE id = 1;
  RETURN NEW;
END $$;
CREATE TRIGGER record_entry_chained BEFORE INSERT ON record_entry FOR EACH ROW EXECUTE FUNCTION chain_record_entry();

CREATE TRIGGER record_entry_kept BEFORE UPDATE OR DELETE ON record_entry
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_record();
CREATE TRIGGER record_entry_not_emptied BEFORE TRUNCATE ON record_entry
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change_of_record();
REVOKE UPDATE, DELETE, TRUNCATE ON record_entry FROM CURRENT_USER;

-- The head moves only with a new entry.
CREATE FUNCTION refuse_loose_head() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP <> 'UPDATE' OR pg_trigger_depth() < 2 THEN
    RAISE EXCEPTION 'the head of the record moves only with a new entry' USING ERRCODE = 'check_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER record_head_fixed BEFORE INSERT OR UPDATE OR DELETE ON record_head
  FOR EACH ROW EXECUTE FUNCTION refuse_loose_head();
