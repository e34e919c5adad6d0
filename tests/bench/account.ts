/** The account that the benchmark signs in with; it sees everything, the record of changes too. */
export const ACCOUNT = { name: 'office', password: 'only-for-the-benchmark' }

/** The account that grades on the phone. */
export const GRADER = { name: 'grader', password: 'only-for-the-benchmark' }
