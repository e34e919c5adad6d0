import type { Context } from '../../../context/context.ts'

const DAY_MS = 86_400_000

/** Until when a sheet can be contested whose content was stored at an instant. */
export const appealableUntil = ({ appealDays }: Pick<Context, 'appealDays'>, revisedAt: Date): Date =>
  new Date(revisedAt.getTime() + appealDays * DAY_MS)
