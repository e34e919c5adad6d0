-- Public keys under which certificates were signed, so that a certificate can be checked once its private key was lost or replaced.
CREATE TABLE certificate_key (
  kid text PRIMARY KEY CHECK (kid ~ '^[A-Za-z0-9_-]{43}$'),
  x text NOT NULL CHECK (x ~ '^[A-Za-z0-9_-]{43}$'),
  first_used_at timestamptz(3) NOT NULL
);
