import type { Readiness } from '#contract/standards/certifications.ts'
import { FilledBy } from '../../parts/first-steps/filled-by.tsx'
import { addressTo, paths } from '../../paths.ts'
import { Empty } from '../../ui/empty.tsx'
import { Section } from '../../ui/section.tsx'
import { PlatoonLines } from './platoon-lines.tsx'
import type { Stand } from './use-stand.ts'

/** How many of each unit stand how. In: what the section says beside its title. */
export function UnitLinesPart({ stand, first, note }: { stand: Stand; first: Readiness; note: string | undefined }) {
  const { words, unitCounts, level, filters } = stand
  return (
    <Section title={`By ${level.one}`} note={note}>
      {first.totals.some((total) => total.required) ? (
        <PlatoonLines
          units={words.units}
          unitId={stand.unitId}
          counts={unitCounts.counts}
          pages={unitCounts}
          level={level}
          certifications={words.certifications}
          linkTo={(unit, certification) => addressTo(paths.stand, { ...present(filters), unitId: unit, certification })}
        />
      ) : (
        <Empty>
          <p>Nobody here is required to hold a certification that day. Pick another unit, certification or date.</p>
          <FilledBy steps={['certifications', 'roster']} />
        </Empty>
      )}
    </Section>
  )
}

const present = (filters: Record<string, string>): Record<string, string> =>
  Object.fromEntries(Object.entries(filters).filter(([, value]) => value !== ''))
