import type { Catalogue } from '../../../db/catalogue.db.ts'
import type { Transaction } from '../../../db/client.ts'
import { shareSoldiers } from '../../../db/locks.db.ts'
import { AppError, type ErrorItem } from '../../../errors.ts'

interface Wanted {
  readonly candidateId: string
  readonly standard: string
}

/** Refuses unknown candidates and standards, and the same twice, each by its place. Locks the candidates' records. */
export async function requireWanted(
  tx: Transaction,
  catalogue: Catalogue,
  wanted: readonly Wanted[],
  pointer: string,
): Promise<void> {
  const known = new Set(await shareSoldiers(tx, [...new Set(wanted.map(({ candidateId }) => candidateId))]))
  const keys = wanted.map(({ candidateId, standard }) => `${candidateId} ${standard}`)
  const items = wanted.flatMap(({ candidateId, standard }, at): ErrorItem[] => {
    const found: (ErrorItem | false)[] = [
      !known.has(candidateId) && {
        pointer: `${pointer}/${at}/candidateId`,
        rule: 'unknown-person',
        detail: 'Nobody on the roster has this id.',
      },
      !catalogue.standards.has(standard) && {
        pointer: `${pointer}/${at}/standard`,
        rule: 'unknown-standard',
        detail: `There is no standard "${standard}".`,
      },
      keys.indexOf(keys[at]!) < at && {
        pointer: `${pointer}/${at}`,
        rule: 'named-twice',
        detail: 'The candidate is named twice for this standard.',
      },
    ]
    return found.filter((item) => item !== false)
  })
  if (items[0]) throw new AppError('invalid', items[0].rule, items[0].detail, items)
}
