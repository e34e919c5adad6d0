import { Secret, TOTP } from 'otpauth'

/** RFC 6238 section 5.2: a step of 30 seconds; one step is allowed to either side, for clocks that are off and slow fingers. */
const STEP_SECONDS = 30
const STEPS_OFF = 1

const DIGITS = 6
/** RFC 4226 section 4 recommends 160 bits. */
const SECRET_BYTES = 20

/** A new secret for an authenticator app, in base32. */
export const newAppSecret = (): string => new Secret({ size: SECRET_BYTES }).base32

/**
 * The time step of a code (RFC 6238 with SHA-1, as apps have it): steps of thirty seconds since 1970. In: the secret in
 * base32, the code, now; digits as many as the code should have. Out: the present step, the one before or the one after;
 * null where the code is of none of them.
 */
export function stepOfCode(secret: string, code: string, now: Date, digits = DIGITS): number | null {
  if (!/^[0-9]+$/.test(code)) return null // The library throws for digits of other scripts.
  const totp = new TOTP({ secret: Secret.fromBase32(secret), digits, period: STEP_SECONDS })
  const timestamp = now.getTime()
  const off = totp.validate({ token: code, timestamp, window: STEPS_OFF })
  return off === null ? null : totp.counter({ timestamp }) + off
}

/** What an app scans to know its secret: `otpauth://totp/…`. */
export const appAddress = (secret: string, accountName: string): string =>
  new TOTP({
    issuer: 'Reviewstand',
    label: accountName,
    secret: Secret.fromBase32(secret),
    digits: DIGITS,
    period: STEP_SECONDS,
  }).toString()
