import type { Context } from '../../context/context.ts'
import { conflict } from '../../errors.ts'
import { DEMO_ACCOUNTS } from './demo-accounts.ts'

/** The sign-in page of the demo offers its accounts with their public password, so that is left to them. */
export function refuseForDemo({ demo }: Context, accountName: string): void {
  if (!demo || !DEMO_ACCOUNTS.some((name) => name === accountName)) return
  throw conflict(
    'demo-account',
    'This account belongs to the demo, and everybody knows its password. Invite one of your own.',
  )
}
