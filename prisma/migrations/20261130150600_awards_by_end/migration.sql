-- Whose certification ends soon is found by its end; without it everybody's standing was looked at.
CREATE INDEX standing_certified_until ON standing (valid_through) WHERE status = 'certified';
