import { useCallback } from 'react'
import { Notice } from '../../ui/notice.tsx'
import { counted, listed, plural } from '../../words/format-number.ts'
import { readOthersPractice } from '../store/practice-store.ts'
import { readOthersWaiting } from '../store/sheet-store.ts'
import { useKept } from '../store/use-kept.ts'

/** What waits of whom: "2 sheets", "1 practice". */
const readOthers = async (accountId: string): Promise<{ name: string; what: string[]; count: number }[]> => {
  const sheets = await readOthersWaiting(accountId)
  const practices = await readOthersPractice(accountId)
  return [...new Set([...sheets.map(({ name }) => name), ...practices])].map((name) => {
    const ofSheets = sheets.find((one) => one.name === name)?.count ?? 0
    const ofPractice = practices.filter((one) => one === name).length
    const what = [
      ofSheets > 0 ? counted(ofSheets, 'sheet') : '',
      ofPractice > 0 ? counted(ofPractice, 'practice') : '',
    ].filter(Boolean)
    return { name, what, count: ofSheets + ofPractice }
  })
}

/** Whoever holds a phone that others graded on learns that their sheets wait here, and what sends them. */
export function OthersWaiting({ accountId }: { accountId: string }) {
  const { value: others = [] } = useKept(useCallback(() => readOthers(accountId), [accountId]))
  if (others.length === 0) return null
  return (
    <Notice>
      <ul>
        {others.map(({ name, what, count }) => (
          <li key={name}>
            {listed(what)} of <bdi>{name}</bdi> {plural(count, 'waits', 'wait')} on this phone and{' '}
            {plural(count, 'goes', 'go')} out when that account signs in here.
          </li>
        ))}
      </ul>
    </Notice>
  )
}
