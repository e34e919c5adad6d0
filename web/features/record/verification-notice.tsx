import type { RecordVerification } from '#contract/record/record.ts'
import { formatVerification } from '../../domain/record/format-record.ts'
import { Notice } from '../../ui/notice.tsx'

/** What checking the chain of entries came to. */
export function VerificationNotice({ found }: { found: RecordVerification }) {
  return (
    <Notice kind={found.whole ? 'good' : 'bad'}>
      <p>{formatVerification(found)}</p>
      {found.problems.map(({ seq, detail }) => (
        <p key={`${seq} ${detail}`}>{detail}</p>
      ))}
      <p className="small record-hash">
        It ends with {found.lastHash}. Note this elsewhere to see later that its end was not cut off.
      </p>
    </Notice>
  )
}
