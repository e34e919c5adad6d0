/** What NIST SP 800-63B-4 section 3.1.1.2 demands where the password is the only factor. In a file without schemas, for the browser. */
export const SHORTEST_PASSWORD = 15
