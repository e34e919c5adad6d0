/** The accounts of the demo, offered on its sign-in page; a demo listens on loopback only. */
export const DEMO_ACCOUNTS = ['office', 'leader', 'sponsor', 'grader', 'commander', 'admin', 'soldier'] as const

export const DEMO_PASSWORD = 'calloway-demo-only'
