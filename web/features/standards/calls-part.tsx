import type { Standard } from '#contract/standards/standards.ts'
import { formatCall } from '../../domain/standards/format-call.ts'
import { measureTitle } from '../../domain/standards/titles.ts'
import { Section } from '../../ui/section.tsx'
import { counted } from '../../words/format-number.ts'

/** The calls of a standard in the order they are given. */
export function CallsPart({ standard, standards }: { standard: Standard; standards: readonly Standard[] }) {
  return (
    <Section title="Order of calls" note={counted(standard.calls.length, 'call')}>
      <ol className="standard-calls">
        {standard.calls.map((call, index) => (
          <li key={`${call.measure} ${call.trial}`}>
            <span className="muted small">{index + 1}</span>
            <span>
              <b>{formatCall(call) || measureTitle(standards, standard.code, call.measure)}</b>
              <br />
              <span className="muted small">
                {measureTitle(standards, standard.code, call.measure)}, trial {call.trial}
                {call.from && `, from ${call.from}`}
              </span>
            </span>
          </li>
        ))}
      </ol>
    </Section>
  )
}
