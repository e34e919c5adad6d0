import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { removalQuery } from '../../api/soldiers/removals.ts'
import { listName, shortName } from '../../domain/soldiers/format-person.ts'
import { addressTo, paths } from '../../paths.ts'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { Section } from '../../ui/section.tsx'
import { formatDayWithYear } from '../../words/format-day.ts'
import { capital, figure } from '../../words/format-number.ts'
import { MentionsList } from './mentions-list.tsx'
import { RemoveForm } from './remove-form.tsx'
import './people.css'

/** What removing somebody's personal data takes out and what stays, and then the removal, which nothing brings back. */
export default function RemovePage({ id }: { id: string }) {
  const query = useQuery(removalQuery(id))
  const preview = query.data
  if (!preview) return <Page title="Remove personal data" error={query.error} onRetry={query.refetch} />
  const { soldier, obstacles, goes, stays, entries, account, mentions } = preview
  return (
    <Page
      title="Remove personal data"
      answer={
        obstacles.length > 0
          ? `The data of ${shortName(soldier)} cannot be removed now.`
          : `Remove the personal data of ${shortName(soldier)} for good?`
      }
      why={
        <>
          <Link href={addressTo(paths.person, { id })}>
            {soldier.rosterNumber} <bdi>{listName(soldier)}</bdi>
          </Link>
          {soldier.left && `, left ${formatDayWithYear(soldier.left.on)}`}. Figures, marks and days stay; nothing brings
          the name back.
        </>
      }
    >
      {obstacles.length > 0 && (
        <Notice kind="bad">
          {obstacles.map(({ rule, detail }) => (
            <p key={rule}>{detail}</p>
          ))}
        </Notice>
      )}
      <Notice>
        <p>
          Law and the policy of the unit come first: how long training records are kept, and who may have them removed.
          Ask whoever answers for records before you do this.
        </p>
      </Notice>
      <div className="columns">
        <Section title="What goes">
          <ul className="people-list">
            <li>Roster number, family name, given name and height; a number of ours stands in their place</li>
            {account !== null && (
              <li>
                <span>
                  The account <bdi>{account}</bdi>, its password, sign-ins and links
                </span>
              </li>
            )}
            {goes.map(({ what, count }) => (
              <Counted key={what} what={what} count={count} />
            ))}
            <Counted
              what="entries of the record of changes about them, left without what they said"
              count={entries.what}
            />
            <Counted what="entries by them, left without name and address" count={entries.who} />
          </ul>
        </Section>
        <Section title="What stays">
          <ul className="people-list">
            {stays.map(({ what, count }) => (
              <Counted key={what} what={what} count={count} />
            ))}
            <li>Every figure and finding, as it is now</li>
            <li>An entry in the record that says who removed the data, when and why</li>
            <li>Days, grade and unit: whoever was there may still know who it was</li>
            <li>
              <b>Backups made before hold everything.</b> Keep or delete them by the same rules
            </li>
          </ul>
        </Section>
      </div>
      <Section title="Where else the name stands" note="not changed; look through it first">
        <MentionsList mentions={mentions} />
      </Section>
      {obstacles.length === 0 && (
        <Section title="Remove it">
          <RemoveForm soldier={soldier} />
        </Section>
      )}
    </Page>
  )
}

const Counted = ({ what, count }: { what: string; count: number }) =>
  count > 0 && (
    <li>
      <span>
        {capital(what)}: <b>{figure(count)}</b>
      </span>
    </li>
  )
