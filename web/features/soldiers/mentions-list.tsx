import { Link } from 'wouter'
import type { RemovalPreview } from '#contract/soldiers/removals.ts'
import { addressTo, paths } from '../../paths.ts'
import { capital, figure } from '../../words/format-number.ts'

type Mention = RemovalPreview['mentions'][number]
type Place = Mention['places'][number]

const PATH = {
  sheet: paths.sheet,
  soldier: paths.candidate,
  ceremony: paths.ceremony,
  'test day': paths.testDay,
} satisfies Record<Exclude<Place['kind'], 'none'>, string>

/** Words about others in which the family name or the roster number stands, with links to read them. */
export function MentionsList({ mentions }: { mentions: readonly Mention[] }) {
  if (mentions.length === 0) {
    return (
      <p>
        Neither the family name nor the roster number appears in any words about others. Check for nicknames yourself.
      </p>
    )
  }
  return (
    <>
      <p>Found by family name and roster number, so others of that name are among them; nicknames are not.</p>
      <ul className="people-list">
        {mentions.map(({ what, count, places }) => (
          <li key={what}>
            <span>
              {capital(what)}: <b>{figure(count)}</b>
            </span>
            {places.map((place, number) => (
              <PlaceLink key={place.id} place={place} number={number + 1} />
            ))}
          </li>
        ))}
      </ul>
    </>
  )
}

const PlaceLink = ({ place: { kind, id }, number }: { place: Place; number: number }) =>
  kind !== 'none' && (
    <Link href={addressTo(PATH[kind], { id })}>
      {kind === 'soldier' ? 'candidate' : kind} {number}
    </Link>
  )
