-- What the rules rely on and the schema language cannot say.

CREATE EXTENSION IF NOT EXISTS btree_gist;

-- ─── Catalogue ───

INSERT INTO catalogue (id, revision) VALUES (1, 0);
ALTER TABLE catalogue ADD CONSTRAINT catalogue_is_one_row CHECK (id = 1);

ALTER TABLE standard ADD CONSTRAINT standard_code CHECK (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$');
ALTER TABLE standard_version
  ADD CONSTRAINT standard_version_number CHECK (version >= 1),
  ADD CONSTRAINT standard_version_definition CHECK (jsonb_typeof(definition) = 'object');
-- Two published versions cannot begin on the same day, or none of them would be the one in force.
CREATE UNIQUE INDEX standard_version_published_from ON standard_version (standard_id, effective_from)
  WHERE published_at IS NOT NULL;

CREATE FUNCTION refuse_frozen_standard() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.published_at IS NOT NULL THEN
    RAISE EXCEPTION 'a published version of a standard is frozen' USING ERRCODE = 'check_violation';
  END IF;
  RETURN COALESCE(NEW, OLD);
END $$;
CREATE TRIGGER standard_version_frozen BEFORE UPDATE OR DELETE ON standard_version
  FOR EACH ROW EXECUTE FUNCTION refuse_frozen_standard();

ALTER TABLE certification ADD CONSTRAINT certification_code CHECK (code ~ '^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$');
ALTER TABLE certification_terms
  ADD CONSTRAINT certification_terms_sequence CHECK (sequence IN ('any', 'in-order')),
  ADD CONSTRAINT certification_terms_numbers CHECK (
    window_days >= 1 AND validity_months >= 1 AND wait_days >= 0 AND due_days >= 0 AND review_after >= 1);

-- ─── People ───

ALTER TABLE unit
  ADD CONSTRAINT unit_kind CHECK (kind IN ('unit', 'company', 'platoon')),
  ADD CONSTRAINT unit_name CHECK (btrim(name) <> ''),
  ADD CONSTRAINT unit_not_its_parent CHECK (parent_id IS DISTINCT FROM id);
CREATE INDEX unit_lineage ON unit USING gin (lineage);

CREATE FUNCTION keep_unit_lineage() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'UPDATE' AND NEW.parent_id IS DISTINCT FROM OLD.parent_id THEN
    RAISE EXCEPTION 'a unit is never moved in the tree' USING ERRCODE = 'check_violation';
  END IF;
  NEW.lineage := ARRAY[NEW.id] || COALESCE((SELECT lineage FROM unit WHERE id = NEW.parent_id), '{}');
  RETURN NEW;
END $$;
CREATE TRIGGER unit_lineage BEFORE INSERT OR UPDATE ON unit FOR EACH ROW EXECUTE FUNCTION keep_unit_lineage();

ALTER TABLE soldier ADD CONSTRAINT soldier_named CHECK (
  btrim(roster_number) <> '' AND btrim(family_name) <> '' AND btrim(given_name) <> '');

ALTER TABLE soldier_change
  ADD CONSTRAINT soldier_change_left CHECK ("left" IN ('transferred', 'separated', 'other')),
  ADD CONSTRAINT soldier_change_leaves_or_joins CHECK ("left" IS NULL OR unit_id IS NULL),
  ADD CONSTRAINT soldier_change_says_something CHECK (num_nonnulls(grade, arms, unit_id, "left") > 0);

ALTER TABLE soldier_period
  ADD CONSTRAINT soldier_period_in_order CHECK (from_day <= through_day),
  ADD CONSTRAINT soldier_period_no_overlap EXCLUDE USING gist (
    soldier_id WITH =, daterange(from_day, through_day, '[]') WITH &&) DEFERRABLE INITIALLY DEFERRED;
-- The people of a unit on a day.
CREATE INDEX soldier_period_of_unit ON soldier_period USING gist (unit_id, daterange(from_day, through_day, '[]'));

ALTER TABLE sponsorship
  ADD CONSTRAINT sponsorship_in_order CHECK (from_day <= to_day),
  ADD CONSTRAINT sponsorship_of_another CHECK (sponsor_id <> candidate_id),
  ADD CONSTRAINT sponsorship_no_overlap EXCLUDE USING gist (
    candidate_id WITH =, sponsor_id WITH =, daterange(from_day, to_day, '[]') WITH &&);

ALTER TABLE appointment
  ADD CONSTRAINT appointment_in_order CHECK (from_day <= to_day),
  ADD CONSTRAINT appointment_standard FOREIGN KEY (standard) REFERENCES standard (code),
  ADD CONSTRAINT appointment_no_overlap EXCLUDE USING gist (
    soldier_id WITH =, standard WITH =, daterange(from_day, to_day, '[]') WITH &&);

ALTER TABLE review ADD CONSTRAINT review_standard FOREIGN KEY (standard) REFERENCES standard (code);
ALTER TABLE withdrawal ADD CONSTRAINT withdrawal_has_reason CHECK (btrim(reason) <> '');
ALTER TABLE carried_award
  ADD CONSTRAINT carried_award_in_order CHECK (awarded_on <= valid_through),
  ADD CONSTRAINT carried_award_has_evidence CHECK (btrim(evidence) <> '');
ALTER TABLE suspension
  ADD CONSTRAINT suspension_in_order CHECK (from_day <= lift_day),
  ADD CONSTRAINT suspension_has_reason CHECK (btrim(reason) <> ''),
  ADD CONSTRAINT suspension_lift_has_reason CHECK ((lift_day IS NULL) = (lift_reason IS NULL));

-- ─── Sheets ───

ALTER TABLE sheet
  ADD CONSTRAINT sheet_purpose CHECK (purpose IN ('test', 'practice')),
  ADD CONSTRAINT sheet_ending CHECK (ending IN ('completed', 'stopped', 'void', 'recorded')),
  ADD CONSTRAINT sheet_outcome CHECK (outcome IN ('GO', 'NO-GO', 'VOID')),
  ADD CONSTRAINT sheet_outcome_of_ending CHECK (
    (outcome = 'VOID') = (ending = 'void') AND (ending <> 'stopped' OR outcome = 'NO-GO')),
  ADD CONSTRAINT sheet_in_order CHECK (started_at <= finished_at),
  ADD CONSTRAINT sheet_state CHECK (state IN ('counted', 'held', 'rejected')),
  ADD CONSTRAINT sheet_practice_is_never_held CHECK (purpose = 'test' OR state <> 'held'),
  ADD CONSTRAINT sheet_not_second_of_itself CHECK (second_of IS DISTINCT FROM id),
  ADD CONSTRAINT sheet_tallied CHECK (
    (tallied_kind IS NULL AND tallied_unit_id IS NULL)
    OR (tallied_kind IN ('first', 'retest') AND state = 'counted' AND purpose = 'test' AND outcome <> 'VOID'
        AND second_of IS NULL)),
  ADD CONSTRAINT sheet_has_its_revision FOREIGN KEY (id, revision) REFERENCES sheet_revision (sheet_id, number)
    DEFERRABLE INITIALLY DEFERRED;
CREATE INDEX sheet_held ON sheet (finished_at, id) WHERE state = 'held';
CREATE INDEX sheet_second_of ON sheet (second_of) WHERE second_of IS NOT NULL;

ALTER TABLE sheet_revision
  ADD CONSTRAINT sheet_revision_number CHECK (number >= 1),
  ADD CONSTRAINT sheet_revision_has_reason CHECK (number = 1 OR btrim(reason) <> '');
ALTER TABLE sheet_decision
  ADD CONSTRAINT sheet_decision_kind CHECK (decision IN ('count', 'reject')),
  ADD CONSTRAINT sheet_decision_has_reason CHECK (btrim(reason) <> '');

CREATE FUNCTION refuse_change_of_record() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME USING ERRCODE = 'check_violation';
END $$;
CREATE TRIGGER sheet_revision_kept BEFORE UPDATE OR DELETE ON sheet_revision
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_record();
CREATE TRIGGER sheet_decision_kept BEFORE UPDATE OR DELETE ON sheet_decision
  FOR EACH ROW EXECUTE FUNCTION refuse_change_of_record();

-- ─── Derived ───

ALTER TABLE standing
  ADD CONSTRAINT standing_in_order CHECK (from_day <= through_day),
  ADD CONSTRAINT standing_status CHECK (
    status IN ('suspended', 'certified', 'retest due', 'part way', 'lapsed', 'no test yet')),
  ADD CONSTRAINT standing_award CHECK ((awarded_on IS NULL) = (valid_through IS NULL)),
  ADD CONSTRAINT standing_no_overlap EXCLUDE USING gist (
    soldier_id WITH =, certification_id WITH =, daterange(from_day, through_day, '[]') WITH &&)
    DEFERRABLE INITIALLY DEFERRED;
ALTER TABLE retest_span
  ADD CONSTRAINT retest_span_in_order CHECK (from_day <= through_day),
  ADD CONSTRAINT retest_span_standard FOREIGN KEY (standard) REFERENCES standard (code),
  ADD CONSTRAINT retest_span_days CHECK (on_day <= earliest AND on_day <= due),
  ADD CONSTRAINT retest_span_no_overlap EXCLUDE USING gist (
    soldier_id WITH =, certification_id WITH =, standard WITH =, daterange(from_day, through_day, '[]') WITH &&)
    DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE tally
  ADD CONSTRAINT tally_grain CHECK (
    (grain = 'day') OR (grain = 'month' AND extract(day FROM start) = 1)
    OR (grain = 'year' AND extract(doy FROM start) = 1)),
  ADD CONSTRAINT tally_kind CHECK (kind IN ('first', 'retest'));
ALTER TABLE measure_tally ADD CONSTRAINT measure_tally_counts CHECK (
  no_go >= 0 AND no_go <= tested AND incorrect >= 0 AND incorrect <= trials);
ALTER TABLE fault_tally ADD CONSTRAINT fault_tally_counts CHECK (count >= 0);
ALTER TABLE sponsor_tally ADD CONSTRAINT sponsor_tally_counts CHECK (passes >= 0 AND passes <= attempts);

-- ─── Events ───

ALTER TABLE ceremony ADD CONSTRAINT ceremony_in_order CHECK (starts_at < ends_at);
ALTER TABLE post ADD CONSTRAINT post_in_formation CHECK (row >= 1 AND place >= 1);
-- Nobody stands at two posts of one ceremony.
CREATE UNIQUE INDEX post_one_a_soldier ON post (ceremony_id, soldier_id) WHERE soldier_id IS NOT NULL;

-- ─── Accounts ───

CREATE UNIQUE INDEX account_name ON account (lower(name));
ALTER TABLE account
  ADD CONSTRAINT account_named CHECK (btrim(name) <> ''),
  ADD CONSTRAINT account_roles CHECK (
    cardinality(roles) > 0
    AND roles <@ ARRAY['leader', 'sponsor', 'grader', 'commander', 'office', 'administrator', 'soldier']);
