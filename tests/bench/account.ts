/** The account that the benchmark signs in with; it sees the whole record. */
export const ACCOUNT = { name: 'office', password: 'only-for-the-benchmark' }

/** The account that grades on the phone. */
export const GRADER = { name: 'grader', password: 'only-for-the-benchmark' }
