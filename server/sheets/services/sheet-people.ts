import type { SheetBody } from '../../contract/sheets/sheets.ts'
import { AppError, type ErrorItem } from '../../errors.ts'

/** Everyone named on a sheet beside the candidate. */
export function otherPeople(body: SheetBody): string[] {
  const { graderId, sponsorId, acknowledged } = body
  const ids = [graderId, ...(sponsorId ? [sponsorId] : []), ...acknowledged.map(({ soldierId }) => soldierId)]
  return [...new Set(ids)]
}

/** Refuses a sheet that names somebody who is not on the roster. */
export function requirePeople(body: SheetBody, existing: readonly string[]): void {
  const named: [string, string | null][] = [
    ['/candidateId', body.candidateId],
    ['/sponsorId', body.sponsorId],
    ['/graderId', body.graderId],
    ...body.acknowledged.map(({ soldierId }, index): [string, string] => [
      `/acknowledged/${index}/soldierId`,
      soldierId,
    ]),
  ]
  const items = named
    .filter(([, id]) => id !== null && !existing.includes(id))
    .map(
      ([pointer, id]): ErrorItem => ({
        pointer,
        rule: 'unknown-person',
        detail: `Nobody on the roster has the id ${id}.`,
      }),
    )
  if (items[0]) throw new AppError('invalid', 'unknown-person', `${items[0].detail} Add the soldier first.`, items)
}
