import { useCallback } from 'react'
import { Notice } from '../../ui/notice.tsx'
import { counted, plural } from '../../words/format-number.ts'
import { readOthersWaiting } from '../store/sheet-store.ts'
import { useKept } from '../store/use-kept.ts'

/** Whoever holds a phone that others graded on learns that their sheets wait here, and what sends them. */
export function OthersWaiting({ accountId }: { accountId: string }) {
  const { value: others = [] } = useKept(useCallback(() => readOthersWaiting(accountId), [accountId]))
  if (others.length === 0) return null
  return (
    <Notice>
      <ul>
        {others.map(({ name, count }) => (
          <li key={name}>
            {counted(count, 'sheet')} of <bdi>{name}</bdi> {plural(count, 'waits', 'wait')} on this phone and{' '}
            {plural(count, 'goes', 'go')} out when that account signs in here.
          </li>
        ))}
      </ul>
    </Notice>
  )
}
