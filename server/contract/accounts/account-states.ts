/** What an account can be. In a file without schemas, for the browser. */
export const ACCOUNT_STATES = ['active', 'invited', 'disabled'] as const
