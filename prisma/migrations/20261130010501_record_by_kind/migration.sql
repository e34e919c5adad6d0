-- The record read by kind: the first word of an action ("sheet", "booking") says of what kind a change is. Sign-ins are
-- many and looked at apart, so the changes without them have an index of their own.
CREATE INDEX record_entry_kind ON record_entry (split_part(action, '.', 1), seq);
CREATE INDEX record_entry_changes ON record_entry (seq) WHERE split_part(action, '.', 1) <> 'session';
