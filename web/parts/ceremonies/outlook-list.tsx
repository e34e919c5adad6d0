import { Link } from 'wouter'
import type { OutlookItem } from '#contract/ceremonies/outlooks.ts'
import type { ForecastOf } from '../../domain/ability/format-forecast.ts'
import { formatWay } from '../../domain/ceremonies/format-way.ts'
import { formatWhyNot, type WhyNotWords } from '../../domain/ceremonies/format-why-not.ts'
import { inGroups } from '../../domain/ceremonies/outlook-groups.ts'
import { addressTo, paths } from '../../paths.ts'
import { Disclosure } from '../../ui/disclosure.tsx'
import { counted } from '../../words/format-number.ts'
import { Chance } from '../ability/chance.tsx'
import './outlook-list.css'

interface OutlookListProps extends WhyNotWords {
  items: readonly OutlookItem[]
  certificationTitle: (code: string) => string
  forecastOf: ForecastOf
  /** The groups that stand open from the start. */
  open?: readonly OutlookItem['group'][]
  /** So many of a group are listed, the others behind a line that says how many; left out, all. */
  most?: number
}

/** How the people of a unit stand with a ceremony: a line a group with how many, and behind it who and why. */
export function OutlookList({ items, certificationTitle, forecastOf, open = [], most, ...words }: OutlookListProps) {
  const isMixed = new Set(items.map(({ certification }) => certification)).size > 1
  const list = (people: readonly OutlookItem[]) => (
    <ul className="outlook-people">
      {people.map((item) => (
        <li key={`${item.soldierId} ${item.certification}`}>
          <Link href={addressTo(paths.candidate, { id: item.soldierId })}>
            <b>
              <bdi>
                {item.grade} {item.name}
              </bdi>
            </b>
          </Link>
          {isMixed && <span className="muted">{certificationTitle(item.certification)}</span>}
          <span>{formatItem(item, words)}</span>
          <WayChances item={item} forecastOf={forecastOf} standardTitle={words.standardTitle} />
        </li>
      ))}
    </ul>
  )
  return (
    <ul className="outlook">
      {inGroups(items).map(({ group, title, items: people }) => (
        <li key={group}>
          <Disclosure title={title} note={counted(people.length, 'soldier')} open={open.includes(group)}>
            {list(people.slice(0, most))}
            {most !== undefined && people.length > most && (
              <Disclosure title={counted(people.length - most, 'other')}>{list(people.slice(most))}</Disclosure>
            )}
          </Disclosure>
        </li>
      ))}
    </ul>
  )
}

interface WayChancesProps {
  item: OutlookItem
  forecastOf: ForecastOf
  standardTitle: (code: string) => string
}

/** How many with such a record pass each test that is on the way. */
function WayChances({ item: { soldierId, way }, forecastOf, standardTitle }: WayChancesProps) {
  const known = (way ?? []).filter(({ standard }) => forecastOf(soldierId, standard))
  return known.map(({ standard }) => (
    <span key={standard}>
      Such candidates pass{known.length > 1 && ` the ${standardTitle(standard)}`}:{' '}
      <Chance forecast={forecastOf(soldierId, standard)} />
    </span>
  ))
}

/** What there is to say of somebody: where they are named, what speaks against them, what would certify them. */
const formatItem = ({ namedAs, whyNot, way, group }: OutlookItem, words: WhyNotWords): string => {
  const parts: string[] = []
  if (namedAs) parts.push(namedAs)
  // The tests on the way name what is missing already.
  const isSaid = (why: OutlookItem['whyNot'][number]) =>
    way !== null && why.reason === 'not certified' && why.status !== 'lapsed'
  if (group !== 'can stand') {
    parts.push(
      ...whyNot.map((why) => (isSaid(why) && why.reason === 'not certified' ? why.status : formatWhyNot(why, words))),
    )
  }
  if (way) parts.push(formatWay(way, words.today, words.standardTitle))
  return parts.join('; ')
}
