-- A statement that appends many entries moves the head once, at its end: moved for each entry, every move would have to
-- walk past all the versions of the head that the transaction left before it.

CREATE FUNCTION begin_record_entries() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE head record_head;
BEGIN
  SELECT * INTO head FROM record_head WHERE id = 1 FOR UPDATE;
  PERFORM set_config('reviewstand.record_head', head.seq || ' ' || encode(head.hash, 'hex'), true);
  RETURN NULL;
END $$;

CREATE OR REPLACE FUNCTION chain_record_entry() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE head text := current_setting('reviewstand.record_head');
BEGIN
  NEW.seq := split_part(head, ' ', 1)::bigint + 1;
  NEW.previous_hash := decode(split_part(head, ' ', 2), 'hex');
  NEW.who_salt := record_salt();
  NEW.what_salt := record_salt();
  NEW.who_digest := NULL;
  NEW.what_digest := NULL;
  NEW.hash := record_entry_hash(NEW);
  PERFORM set_config('reviewstand.record_head', NEW.seq || ' ' || encode(NEW.hash, 'hex'), true);
  RETURN NEW;
END $$;

CREATE FUNCTION end_record_entries() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE head text := current_setting('reviewstand.record_head');
BEGIN
  UPDATE record_head SET seq = split_part(head, ' ', 1)::bigint, hash = decode(split_part(head, ' ', 2), 'hex')
  WHERE id = 1;
  RETURN NULL;
END $$;

CREATE TRIGGER record_entries_begun BEFORE INSERT ON record_entry
  FOR EACH STATEMENT EXECUTE FUNCTION begin_record_entries();
CREATE TRIGGER record_entries_ended AFTER INSERT ON record_entry
  FOR EACH STATEMENT EXECUTE FUNCTION end_record_entries();
