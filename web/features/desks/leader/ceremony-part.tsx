import { Link } from 'wouter'
import type { OutlookPage } from '#contract/ceremonies/outlooks.ts'
import type { ForecastOf } from '../../../domain/ability/format-forecast.ts'
import { formatTimes } from '../../../domain/ceremonies/format-ceremony.ts'
import { OutlookList } from '../../../parts/ceremonies/outlook-list.tsx'
import { PostBar, PostsFilled } from '../../../parts/ceremonies/post-bar.tsx'
import { addressTo, paths } from '../../../paths.ts'
import { Disclosure } from '../../../ui/disclosure.tsx'
import { Section } from '../../../ui/section.tsx'
import { useMedia } from '../../../ui/use-media.ts'
import { formatDay } from '../../../words/format-day.ts'
import { counted } from '../../../words/format-number.ts'
import { ShortList } from './short-list.tsx'

/** Of each group of people, until more are asked for. */
const LISTED = { phone: 3, desk: 8 }

type Outlook = OutlookPage['items'][number]

interface CeremonyWords {
  forecastOf: ForecastOf
  today: string
  zone: string | null
  certificationTitle: (code: string) => string
  standardTitle: (code: string) => string
}

interface CeremonyPartProps extends CeremonyWords {
  item: Outlook
  unit: string
  /** The next ceremony: what is short and who could help stand open. */
  open: boolean
}

/** The ways on from a ceremony. */
export function CeremonyLinks({ ceremony: { id, title } }: Pick<Outlook, 'ceremony'>) {
  return (
    <>
      <Link href={addressTo(paths.ceremony, { id })}>Name soldiers</Link> ·{' '}
      <Link href={addressTo(paths.roster, { id })}>Roster</Link>
      <span className="out-of-sight"> of {title}</span>
    </>
  )
}

/** One ceremony: what is short, and who of the unit could help. */
export function CeremonyPart({ item: { ceremony, short, people }, unit, open, ...words }: CeremonyPartProps) {
  const isNarrow = useMedia('(max-width: 47.99rem)')
  return (
    <div className="desk-ceremony">
      <div>
        <p className="desk-posts">
          <PostsFilled posts={ceremony.posts} filled={ceremony.filled} />
          <PostBar posts={ceremony.posts} filled={ceremony.filled} />
        </p>
        <ShortList ceremonyId={ceremony.id} posts={short} open={open} {...words} />
      </div>
      <div>
        <h3>
          Of <bdi>{unit}</bdi>
        </h3>
        {people.length === 0 ? (
          <p className="muted">Nobody has what its posts ask for.</p>
        ) : (
          <OutlookList
            items={people}
            open={open ? ['can stand', 'could make it'] : []}
            most={isNarrow ? LISTED.phone : LISTED.desk}
            {...words}
          />
        )}
      </div>
    </div>
  )
}

/** The ceremonies after the next one, folded. */
export function LaterCeremonies({
  later,
  unit,
  words,
}: {
  later: readonly Outlook[]
  unit: string
  words: CeremonyWords
}) {
  return (
    <Section title="After that" note={counted(later.length, 'ceremony', 'ceremonies')}>
      <ul className="desk-later">
        {later.map((item) => (
          <li key={item.ceremony.id}>
            <Disclosure
              title={item.ceremony.title}
              note={
                <>
                  <span className="desk-when">{formatDay(item.ceremony.day, words.today)}</span>{' '}
                  <PostsFilled posts={item.ceremony.posts} filled={item.ceremony.filled} />
                </>
              }
            >
              <p className="desk-times">
                {formatTimes(item.ceremony, words.today, words.zone)} · <CeremonyLinks ceremony={item.ceremony} />
              </p>
              <CeremonyPart item={item} unit={unit} open={false} {...words} />
            </Disclosure>
          </li>
        ))}
      </ul>
    </Section>
  )
}
