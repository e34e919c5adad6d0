import { readLineages } from '../../../server/access/db/units.db.ts'
import { addToTallies } from '../../../server/assessment/db/tallies.db.ts'
import type { StandardVersion } from '../../../server/db/catalogue.db.ts'
import type { Database } from '../../../server/db/client.ts'
import type { Contribution } from '../../../server/domain/tallies/contribution.ts'
import { spreadContributions } from '../../../server/domain/tallies/spread-contributions.ts'
import { tallyLayout } from '../../../server/domain/tallies/tally-layout.ts'
import { contributionsOf } from './contributions.ts'
import type { JudgedCareer } from './judge-career.ts'

export interface TallyWriter {
  /** Careers come battalion by battalion. */
  add(battalion: number, judged: JudgedCareer): Promise<void>
  finish(): Promise<void>
}

/** Counts attempts through the product's own statement, a battalion's year at a time, while the next battalion is made. */
export function tallyWriter(db: Database, version: StandardVersion): TallyWriter {
  const layout = tallyLayout(version.definition)
  let years = new Map<string, Contribution[]>()
  let current = 0
  let writing: Promise<void> = Promise.resolve()

  const write = async (lists: Iterable<Contribution[]>) => {
    for (const contributions of lists) {
      const units = contributions.flatMap(({ unitId }) => unitId ?? [])
      const lineages = await readLineages(db, [...new Set(units)])
      await addToTallies(db, spreadContributions(contributions, lineages))
    }
  }
  const flush = async () => {
    await writing
    writing = write(years.values())
    writing.catch(() => {}) // Whoever waits for it next hears of it.
    years = new Map()
  }

  return {
    async add(battalion, judged) {
      if (battalion !== current) await flush()
      current = battalion
      for (const contribution of contributionsOf(version.id, layout, judged)) {
        const year = contribution.day.slice(0, 4)
        const contributions = years.get(year)
        if (contributions) contributions.push(contribution)
        else years.set(year, [contribution])
      }
    },
    async finish() {
      await flush()
      await writing
    },
  }
}
