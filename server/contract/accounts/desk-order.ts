/** Which desk somebody with several roles is shown first. In a file without schemas, for the browser. */
export const DESK_ORDER = ['office', 'commander', 'leader', 'sponsor', 'grader', 'soldier', 'administrator'] as const
