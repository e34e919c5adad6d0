import { z } from 'zod'
import { Instant, Page, page, storableText, Uuid } from '../common.ts'
import { InvitationBody } from './accounts.ts'
import { MOST_AT_ONCE } from './most-at-once.ts'

const tooMany = { error: `At most ${MOST_AT_ONCE} at once.` }

/** Somebody on the roster who has no account. */
export const SoldierWithout = z
  .object({
    id: Uuid,
    soldier: z.string().describe('Roster number and name.'),
    grade: z.string(),
    unitId: Uuid.describe('Where they are, or will be.'),
    isSponsor: z.boolean().describe('Named as a sponsor, now or later.'),
    isGrader: z.boolean().describe('Appointed as a grader, now or later.'),
  })
  .meta({ id: 'SoldierWithout' })

export const SoldierWithoutPage = page(SoldierWithout)

export const WithoutQuery = z.strictObject({
  ...Page,
  unitId: Uuid.optional().describe('In this unit or below it.'),
  q: storableText(100).optional().describe('Parts of roster number, name or grade.'),
  need: z.enum(['sponsor', 'grader']).optional().describe('Named as one.'),
})

export const NamesBody = z
  .strictObject({ soldierIds: z.array(Uuid).min(1).max(MOST_AT_ONCE, tooMany) })
  .meta({ id: 'AccountNamesBody' })

export const ProposedNames = z
  .object({ items: z.array(z.object({ soldierId: Uuid, name: z.string() })) })
  .meta({ id: 'ProposedNames' })

export const InvitationsBody = z
  .strictObject({
    accounts: z.array(InvitationBody).min(1, { error: 'Give at least one account.' }).max(MOST_AT_ONCE, tooMany),
  })
  .meta({ id: 'InvitationsBody' })

/** The links of all of them, told this once, in the order of the accounts asked for. */
export const InvitationLinks = z
  .object({ items: z.array(z.object({ id: Uuid, name: z.string(), token: z.string(), expiresAt: Instant })) })
  .meta({ id: 'InvitationLinks' })

export type SoldierWithout = z.infer<typeof SoldierWithout>
export type WithoutQuery = z.infer<typeof WithoutQuery>
export type ProposedNames = z.infer<typeof ProposedNames>
export type InvitationsBody = z.infer<typeof InvitationsBody>
export type InvitationLinks = z.infer<typeof InvitationLinks>
