import { useCallback } from 'react'
import { Link } from 'wouter'
import { listStudies } from '../../device/store/study-store.ts'
import { useKept } from '../../device/store/use-kept.ts'
import { addressTo, paths } from '../../paths.ts'
import { Section } from '../../ui/section.tsx'

/** The study sheets that open on this device without a network. */
export function KeptStudies({ accountId }: { accountId: string }) {
  const { value: studies } = useKept(useCallback(() => listStudies(accountId), [accountId]))
  if (!studies || studies.length === 0) return null
  return (
    <Section title="Study sheets on this device">
      <ul>
        {studies.map(({ standard, candidateId, sheet }) => (
          <li key={`${standard} ${candidateId}`}>
            <Link href={addressTo(paths.study, { id: standard, candidate: candidateId })}>{sheet.standard.title}</Link>
            {sheet.candidate && (
              <>
                {' '}
                <bdi className="muted">{sheet.candidate.name}</bdi>
              </>
            )}
          </li>
        ))}
      </ul>
    </Section>
  )
}
