import { useQuery } from '@tanstack/react-query'
import { Link } from 'wouter'
import { sheetQuery } from '../../../api/sheets/sheets.ts'
import { standardsQuery } from '../../../api/standards/standards.ts'
import { standardTitle } from '../../../domain/standards/titles.ts'
import { addressTo, paths } from '../../../paths.ts'
import { formatDay } from '../../../words/format-day.ts'

interface WhoseSheetProps {
  sheetId: string
  /** What is asked of it: "NO-GO becomes GO". */
  asked: string
  today: string
}

/** Whose test a contested sheet is of, in which standard and when, and the way to it. */
export function WhoseSheet({ sheetId, asked, today }: WhoseSheetProps) {
  const sheet = useQuery(sheetQuery(sheetId)).data
  const standards = useQuery(standardsQuery).data ?? []
  return (
    <>
      <h3>
        {sheet && <bdi>{sheet.people[sheet.candidateId] ?? 'Somebody not visible to you'}</bdi>}{' '}
        <span className="contested-asked">{asked}</span>
      </h3>
      <p>
        {sheet && `${standardTitle(standards, sheet.standard)}, ${formatDay(sheet.day, today)}. `}
        <Link href={addressTo(paths.sheet, { id: sheetId })}>The whole sheet</Link>
        {sheet && (
          <>
            {' · '}
            <Link href={addressTo(paths.asKnown, { id: sheet.candidateId, on: sheet.day })}>
              As known at the end of that day
            </Link>
          </>
        )}
      </p>
    </>
  )
}
