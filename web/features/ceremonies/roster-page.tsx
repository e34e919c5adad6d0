import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { ceremonyQuery } from '../../api/ceremonies/ceremonies.ts'
import { distinctNames } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { TableFiles } from '../../ui/table-files.tsx'
import { formatDayInFull, formatDayWithYear } from '../../words/format-day.ts'
import { listed } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import { useWords, type Words } from './use-words.ts'
import './roster.css'
import { FormationOnTheWall, PostsOnTheWall, postRows } from './roster-posts.tsx'

type Post = CeremonyDetail['formation'][number]

/** The roster for the wall: times, rehearsals, the formation as it forms up, who stands where, who steps in. For paper. */
export default function RosterPage({ id }: { id: string }) {
  const query = useQuery(ceremonyQuery(id))
  const ceremony = query.data
  const words = useWords(ceremony?.unitId)
  if (!ceremony || words.units.length === 0) return <Page title="Roster" error={query.error} onRetry={query.refetch} />
  const { today, zone, units } = words
  const names = distinctNames(ceremony.formation.flatMap(({ soldier }) => soldier ?? []))
  const hasArms =
    ceremony.formation.some(({ arm }) => arm !== null) || words.certifications.some(({ arms }) => arms.length > 0)
  const now = formatTime(new Date().toISOString(), zone)
  return (
    <Page
      title={`Roster ${ceremony.title}`}
      answer={<bdi>{ceremony.title}</bdi>}
      why={[formatDayWithYear(ceremony.day), ceremony.place, fullUnitName(units, ceremony.unitId)]
        .filter(Boolean)
        .join(' · ')}
      controls={
        <>
          <Button kind="main" onClick={() => window.print()}>
            Print
          </Button>
          <Link href={addressTo(paths.ceremony, { id })} className="button">
            Back to the ceremony
          </Link>
        </>
      }
    >
      <div className="wall">
        <p className="wall-as-of">
          As of {formatDayInFull(today, today)} {today.slice(0, 4)}, {now}. Look it up again before it is needed.
        </p>
        {ceremony.formation.some(({ otherUnit }) => otherUnit) && (
          <p className="no-print muted">
            You see the names of your own unit. Whoever plans the ceremony prints the roster with all of them.
          </p>
        )}
        {ceremony.cancelReason !== null && <p className="wall-off">Called off: {ceremony.cancelReason}</p>}
        <TimesOnTheWall ceremony={ceremony} words={words} />
        <FormationOnTheWall formation={ceremony.formation} names={names} />
        <p className="wall-key">Front rank on top, seen from the front. A dashed box is a post not filled.</p>
        <PostsOnTheWall formation={ceremony.formation} names={names} certificationTitle={words.certificationTitle} />
        <TableFiles
          caption={`Posts of ${ceremony.title}`}
          rows={() => postRows(ceremony.formation, words.certificationTitle)}
        />
        <AlternatesOnTheWall ceremony={ceremony} />
        <p className="wall-caution">
          {hasArms &&
            'Edged weapons and all other arms are handled at the unit’s own safety distance, and all handling stops on “cease”. '}
          Heat, standing long and locked knees make people faint: drink, bend the knees, have medical help at hand. Unit
          procedure, the safety officer and medical staff come before anything on this sheet.
        </p>
      </div>
    </Page>
  )
}

function TimesOnTheWall({ ceremony, words: { today, zone } }: { ceremony: CeremonyDetail; words: Words }) {
  const time = (instant: string) => formatTime(instant, zone)
  return (
    <div className="wall-times">
      <dl>
        <div>
          <dt>Report</dt>
          <dd>{time(ceremony.reportsAt)}</dd>
        </div>
        <div>
          <dt>Start</dt>
          <dd>{time(ceremony.startsAt)}</dd>
        </div>
        <div>
          <dt>End</dt>
          <dd>{time(ceremony.endsAt)}</dd>
        </div>
      </dl>
      <div>
        {ceremony.rehearsals.map((one) => (
          <p key={one.startsAt}>
            <b>Rehearsal</b> {formatDayInFull(one.day, today)}, {time(one.startsAt)} to {time(one.endsAt)}
            {one.place && `, ${one.place}`}
          </p>
        ))}
        {ceremony.notes && <p className="wall-notes">{ceremony.notes}</p>}
      </div>
    </div>
  )
}

const stepsInFor = (postIds: readonly string[], posts: readonly Post[]): string =>
  postIds.length === 0
    ? 'for any post'
    : `for ${listed(posts.filter(({ id }) => postIds.includes(id)).map(({ title }) => title))}`

function AlternatesOnTheWall({ ceremony }: { ceremony: CeremonyDetail }) {
  return (
    <>
      <h2>Alternates, in order</h2>
      {ceremony.alternates.length === 0 ? (
        <p>None named.</p>
      ) : (
        <ol className="wall-alternates">
          {ceremony.alternates.map((one) => (
            <li key={one.id}>
              <b>
                <bdi>{one.soldier ? `${one.soldier.grade} ${one.soldier.name}` : 'of another unit'}</bdi>
              </b>{' '}
              {one.soldier?.rosterNumber} {stepsInFor(one.postIds, ceremony.formation)}
            </li>
          ))}
        </ol>
      )}
    </>
  )
}
