/** A reading as the rules take it: up to four digits, up to four decimals. */
export const READING = /^-?\d{1,4}(\.\d{1,4})?$/
