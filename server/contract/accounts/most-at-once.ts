/** How many accounts are made in one go. In a file without schemas, for the browser. */
export const MOST_AT_ONCE = 200
