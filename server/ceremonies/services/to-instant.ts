/** Milliseconds since 1970 as the wire has an instant: "2026-07-04T10:00:00Z", with milliseconds only where there are any. */
export const toInstant = (millis: number): string => new Date(millis).toISOString().replace('.000Z', 'Z')
