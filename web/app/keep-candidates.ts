import type { QueryClient } from '@tanstack/react-query'
import type { Session } from '#contract/accounts/session.ts'
import { coachingQuery } from '../api/coaching/coaching.ts'
import { candidatePage } from '../device/store/kept-page.ts'
import { keepPage, readPage } from '../device/store/page-store.ts'
import { candidateAnswers } from '../features/coaching/candidate-answers.ts'

/** A page that was kept so lately is not asked for again. */
const FRESH_MS = 3_600_000

/**
 * Keeps the pages that somebody needs on the field before they were ever opened: of a sponsor's candidates, and one's own.
 * One page after the other. Throws where the network or the device fails.
 */
export async function keepCandidates(
  client: QueryClient,
  { accountId, roles, soldierId }: Session,
  now: () => Date,
): Promise<void> {
  const coached = roles.includes('sponsor') ? (await client.fetchQuery(coachingQuery)).items : []
  const ids = [...coached.map(({ candidateId }) => candidateId), soldierId ?? '']
  for (const id of ids.filter((one) => one !== '')) {
    const page = candidatePage(id)
    const kept = await readPage(accountId, page)
    if (kept && now().getTime() - Date.parse(kept.fetchedAt) < FRESH_MS) continue
    await keepPage({ accountId, page, answers: await candidateAnswers(client, id), fetchedAt: now().toISOString() })
  }
}
