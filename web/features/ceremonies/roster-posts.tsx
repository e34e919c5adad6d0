import type { CeremonyDetail } from '#contract/ceremonies/ceremonies.ts'
import { shortWhyNot } from '../../domain/ceremonies/format-why-not.ts'
import { inRanks } from '../../domain/ceremonies/in-ranks.ts'
import type { Cell } from '../../ui/to-csv.ts'
import { listed } from '../../words/format-number.ts'

type Post = CeremonyDetail['formation'][number]

interface FormationOnTheWallProps {
  formation: readonly Post[]
  /** How each soldier is called on it, by id. */
  names: ReadonlyMap<string, string>
}

/** The formation as it forms up. */
export function FormationOnTheWall({ formation, names }: FormationOnTheWallProps) {
  return (
    <ol className="wall-formation" aria-label="Ranks, front rank first">
      {inRanks(formation).map((rank) => (
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
  )
}

interface PostsOnTheWallProps {
  formation: readonly Post[]
  names: ReadonlyMap<string, string>
  certificationTitle: (code: string) => string
}

/** Who stands where, and what is not settled yet. */
export function PostsOnTheWall({ formation, names, certificationTitle }: PostsOnTheWallProps) {
  return (
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
        {inRanks(formation)
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
              <td>{certificationTitle(post.certification)}</td>
              <td>{notSettled(post)}</td>
            </tr>
          ))}
      </tbody>
    </table>
  )
}

/** The posts for a file, one fact a column. */
export const postRows = (formation: readonly Post[], certificationTitle: (code: string) => string): Cell[][] => [
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

const whoStands = ({ soldier, otherUnit }: Post, names: ReadonlyMap<string, string>): string =>
  soldier ? (names.get(soldier.id) ?? '') : otherUnit ? 'of another unit' : ''

const notSettled = ({ filled, soldier, otherUnit }: Post): string => {
  if (filled) return ''
  if (soldier) return listed(soldier.whyNot.map(shortWhyNot))
  return otherUnit ? 'cannot stand' : 'open'
}
