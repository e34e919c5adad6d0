import { useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'wouter'
import type { PossibleDuplicate } from '#contract/sheets/duplicates.ts'
import { duplicatesQuery, proposeDuplicate } from '../../../api/sheets/duplicates.ts'
import { invalidateSheets } from '../../../api/sheets/sheets.ts'
import { addressTo, paths } from '../../../paths.ts'
import { ReasonedForm } from '../../../ui/reasoned-form.tsx'
import { Section } from '../../../ui/section.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { formatTaken, formatWhoseStands } from './format-duplicates.ts'
import './duplicates.css'

interface DuplicatesPartProps {
  /** The title of a standard. */
  titleOf: (code: string) => string
  today: string
}

/** Sheets that run at the same time and may be of one test: the office chooses which one stands. */
export function DuplicatesPart({ titleOf, today }: DuplicatesPartProps) {
  const pairs = useQuery(duplicatesQuery).data
  if (!pairs || pairs.length === 0) return null
  return (
    <Section title="Perhaps one test, sent twice" note="one candidate, one standard, at the same time">
      <p>
        Choose the sheet that stands. The other one is kept, counts nowhere and says which it duplicates, once a second
        person confirms it. If they were two tests, amend the times of one.
      </p>
      {pairs.map((pair) => (
        <Pair key={pair.earlier.sheetId + pair.later.sheetId} pair={pair} titleOf={titleOf} today={today} />
      ))}
    </Section>
  )
}

function Pair({ pair, titleOf, today }: DuplicatesPartProps & { pair: PossibleDuplicate }) {
  const client = useQueryClient()
  const both = [pair.earlier, pair.later] as const
  const choices = both.map((sheet, place) => ({
    value: sheet.sheetId,
    text: formatWhoseStands(sheet, both[1 - place]!),
  }))
  const stand = async (stands: string, reason: string) => {
    const aside = both.find(({ sheetId }) => sheetId !== stands)!
    await proposeDuplicate(aside.sheetId, stands, reason)
    await invalidateSheets(client)
  }
  return (
    <article className="duplicate">
      <h3>
        <Link href={addressTo(paths.candidate, { id: pair.candidateId })}>
          <bdi>{pair.candidate}</bdi>
        </Link>
      </h3>
      <p>
        {titleOf(pair.standard)}, {formatDay(pair.day, today)}
      </p>
      <ul className="duplicate-sheets">
        {both.map((sheet) => (
          <li key={sheet.sheetId}>
            <b>{sheet.outcome}</b>
            <span>
              <bdi>{sheet.grader}</bdi>
            </span>
            <span className="muted">{formatTaken(sheet)}</span>
            <Link href={addressTo(paths.sheet, { id: sheet.sheetId })}>The whole sheet</Link>
          </li>
        ))}
      </ul>
      {pair.isProposed ? (
        <p>
          An amendment of one of them <Link href={paths.contested}>waits for a second person</Link>.
        </p>
      ) : (
        <ReasonedForm label="Reason, kept with the sheet" choices={choices} onChoose={stand} />
      )}
    </article>
  )
}
