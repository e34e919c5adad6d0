import type { SheetDetail } from '#contract/sheets/sheets.ts'
import { formatViolation } from '../../domain/sheets/format-rule.ts'
import { Section } from '../../ui/section.tsx'

/** The conditions a sheet breaks, and which of them were waived. */
export function ViolationsPart({
  sheet,
  titleOf,
  today,
}: {
  sheet: SheetDetail
  titleOf: (code: string) => string
  today: string
}) {
  return (
    <Section title={sheet.state === 'held' ? 'Why it is held' : 'Conditions not met'}>
      <ul className="measure-notes">
        {sheet.violations.map((violation) => (
          <li key={violation.rule}>
            {formatViolation(violation, today, titleOf)}{' '}
            {sheet.waived.includes(violation.rule) && <span className="muted">waived</span>}
          </li>
        ))}
      </ul>
    </Section>
  )
}
