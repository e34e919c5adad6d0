/**
 * Tables that are in no archive: keys that let somebody in, what belongs to a running server, and PostgreSQL's own list
 * of migrations, which the head of an archive has. Password hashes (Argon2id) are in it, since without them nobody could
 * sign in after a restore; so an archive is as secret as the database.
 */
export const LEFT_OUT: readonly string[] = [
  '_prisma_migrations',
  'session',
  'invitation',
  'known_device',
  'half_sign_in',
  'passkey_challenge',
  'password_tries',
  'setup_link',
  'calendar_link',
  'script_token',
  'mail_code',
  'mail',
  'mail_notice',
  'push_subscription',
  'push_message',
  'sign_on_attempt',
  'sign_on_session',
  'logout_token',
  'running_test',
  'backup_run',
]
