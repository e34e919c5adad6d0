-- What is open on a day is found by its end, without a look at every soldier: few spans end after today, or never.
CREATE INDEX retest_span_until ON retest_span ((COALESCE(through_day, 'infinity'::date)));
