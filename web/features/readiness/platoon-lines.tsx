import { Link } from 'wouter'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import type { Certification, Readiness } from '#contract/standards/certifications.ts'
import { PeopleMarks, StateKey } from '../../charts/people-marks.tsx'
import type { LevelWords } from '../../domain/soldiers/levels.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { certificationTitle } from '../../domain/standards/titles.ts'
import { More } from '../../ui/more.tsx'
import { type Pages, TableFiles } from '../../ui/table-files.tsx'
import { ofAll } from '../../words/of-all.ts'
import { linesByPlatoon } from './lines-by-platoon.ts'
import { tallyCells } from './tally-cells.ts'
import './platoon-lines.css'

interface Props {
  units: readonly Unit[]
  /** The unit asked for; only what is below it is drawn. */
  unitId: string | undefined
  counts: Readiness['counts']
  /** Further units. */
  pages: Pages & { isFetchingNextPage: boolean }
  /** What most of these units are. */
  level: LevelWords
  certifications: readonly Certification[]
  linkTo: (unitId: string, certification: string) => string
}

/** Unit by unit, one line a certification: one mark a soldier required to hold it, in order of state. */
export function PlatoonLines({ units, unitId, counts, pages, level, certifications, linkTo }: Props) {
  const platoons = linesByPlatoon(units, unitId, counts)
  const rows = () =>
    tallyCells(
      platoons,
      (id) => fullUnitName(units, id),
      (code) => certificationTitle(certifications, code),
    )
  return (
    <>
      {platoons.map(({ unit, lines }) => (
        <div key={unit.id} className="platoon">
          <h3>
            <bdi>{fullUnitName(units, unit.id)}</bdi>
          </h3>
          <ul>
            {lines.map(({ certification, tally, total }) => (
              <li key={certification} className="platoon-line">
                <Link href={linkTo(unit.id, certification)}>{certificationTitle(certifications, certification)}</Link>
                <span className="platoon-share">
                  <b>{ofAll(tally.certified, total)}</b>
                </span>
                <PeopleMarks tally={tally} size={15} />
                <StateKey tally={tally} />
              </li>
            ))}
          </ul>
        </div>
      ))}
      <More hasMore={pages.hasNextPage} loading={pages.isFetchingNextPage} onMore={pages.fetchNextPage}>
        {`Show more ${level.many}`}
      </More>
      <TableFiles caption={`Who can stand by ${level.one}`} pages={pages} rows={rows} />
    </>
  )
}
