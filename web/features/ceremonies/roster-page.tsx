import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { ceremonyQuery } from '../../api/ceremonies/ceremonies.ts'
import { shortWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { inRanks } from '../../domain/ceremonies/in-ranks.ts'
import { distinctNames } from '../../domain/soldiers/format-person.ts'
import { fullUnitName } from '../../domain/soldiers/unit-tree.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { Page } from '../../ui/page.tsx'
import { TableFiles } from '../../ui/table-files.tsx'
import type { Cell } from '../../ui/to-csv.ts'
import { formatDayInFull, formatDayWithYear } from '../../words/format-day.ts'
import { listed } from '../../words/format-number.ts'
import { formatTime } from '../../words/format-time.ts'
import { useWords, type Words } from './use-words.ts'
import './roster.css'

type Post = CeremonyDetail['formation'][number]

/** The roster for the wall: times, rehearsals, the formation as it forms up, who stands where, who steps in. For paper. */
export default function RosterPage({ id }: { id: string }) {
  const query = useQuery(ceremonyQuery(id))
  const ceremony = query.data
  const words = useWords(ceremony?.unitId)
  if (!ceremony || words.units.length === 0) return <Page title="Roster" error={query.error} onRetry={query.refetch} />
  const { today, zone, units } = words
  const names = distinctNames(ceremony.formation.flatMap(({ soldier }) => soldier ?? []))
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
        <ol className="wall-formation" aria-label="Ranks, front rank first">
          {inRanks(ceremony.formation).map((rank) => (
            <li key={rank[0]?.row}>
              <ol aria-label={`Rank ${rank[0]?.row}`}>
                {rank.map((post) => (
                  <li key={post.id} className={post.filled ? undefined : 'wall-open'}>
                    <span>{post.title}</span>
                    <b>
                      <bdi>{whoStands(post, names)}</bdi>
                    </b>
                  </li>
                ))}
              </ol>
            </li>
          ))}
        </ol>
        <p className="wall-key">Front rank on top, seen from the front. A dashed box is a post not filled.</p>
        <table className="wall-table">
          <caption className="out-of-sight">Posts and who stands there</caption>
          <thead>
            <tr>
              <th scope="col">Rank, place</th>
              <th scope="col">Post</th>
              <th scope="col">Name</th>
              <th scope="col">Number</th>
              <th scope="col">Certification</th>
              <th scope="col">Problem</th>
            </tr>
          </thead>
          <tbody>
            {inRanks(ceremony.formation)
              .flat()
              .map((post) => (
                <tr key={post.id}>
                  <td>
                    {post.row}, {post.place}
                  </td>
                  <td>{post.title}</td>
                  <td>
                    <b>
                      <bdi>{post.soldier ? `${post.soldier.grade} ${post.soldier.name}` : whoStands(post, names)}</bdi>
                    </b>
                  </td>
                  <td>{post.soldier?.rosterNumber ?? ''}</td>
                  <td>{words.certificationTitle(post.certification)}</td>
                  <td>{notSettled(post)}</td>
                </tr>
              ))}
          </tbody>
        </table>
        <TableFiles
          caption={`Posts of ${ceremony.title}`}
          rows={() => postRows(ceremony.formation, words.certificationTitle)}
        />
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
        <p className="wall-caution">
          Edged weapons are handled at the unit’s own safety distance, and all handling stops on “cease”. Heat, standing
          long and locked knees make people faint: drink, bend the knees, have medical help at hand. Unit procedure, the
          safety officer and medical staff come before anything on this sheet.
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

const whoStands = ({ soldier, otherUnit }: Post, names: ReadonlyMap<string, string>): string =>
  soldier ? (names.get(soldier.id) ?? '') : otherUnit ? 'of another unit' : ''

/** The posts for a file, one fact a column. */
const postRows = (formation: readonly Post[], certificationTitle: (code: string) => string): Cell[][] => [
  ['Rank', 'Place', 'Post', 'Grade', 'Name', 'Number', 'Certification', 'Problem'],
  ...inRanks(formation)
    .flat()
    .map((post) => [
      post.row,
      post.place,
      post.title,
      post.soldier?.grade ?? null,
      post.soldier?.name ?? (post.otherUnit ? 'of another unit' : null),
      post.soldier?.rosterNumber ?? null,
      certificationTitle(post.certification),
      notSettled(post),
    ]),
]

const notSettled = ({ filled, soldier, otherUnit }: Post): string => {
  if (filled) return ''
  if (soldier) return listed(soldier.whyNot.map(shortWhyNot))
  return otherUnit ? 'cannot stand' : 'open'
}

const stepsInFor = (postIds: readonly string[], posts: readonly Post[]): string =>
  postIds.length === 0
    ? 'for any post'
    : `for ${listed(posts.filter(({ id }) => postIds.includes(id)).map(({ title }) => title))}`
